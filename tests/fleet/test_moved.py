"""Runs and units that went to another month are known by what was published."""

from __future__ import annotations

from pathlib import Path

import polars as pl

from eol.fleet.manifest import Part
from eol.fleet.marks import part_marks
from eol.fleet.moved import Moved, moved_keys
from eol.fleet.place import open_place
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy


def test_months_left_and_reached() -> None:
    """A row names the month it left and the one it reached."""
    rows = pl.DataFrame({"key": [7, 8], "from_month": ["a", "b"], "to_month": ["b", "c"]})
    assert (Moved(rows).left, Moved(rows).reached) == (frozenset("ab"), frozenset("bc"))
    assert Moved(rows).keys_reaching("b").to_list() == [7]
    assert Moved.none().left == frozenset()


def test_run_published_in_another_month(small_plant: PlantFolder, tmp_path: Path) -> None:
    """A run that stands in the published part of a month and lies in another now has moved."""
    place = open_place(tmp_path)
    with open_copy(small_plant) as copy:
        part_marks(copy)
        month = copy.view("lake_run_month")["production_month"][0]
        old = place.open_output("run/plant=P1/production_month=2020-01/part-0.parquet")
        copy.view("run").head(1).write_parquet(old)
        old.close()
        touched = (Part("run", "2020-01", 0, ""), Part("run", month, 1, ""))
        moved = moved_keys(copy, place, "P1", "run", touched)
    assert (moved.left, moved.reached) == (frozenset({"2020-01"}), frozenset({month}))
