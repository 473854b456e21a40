"""A part holds the rows of its table and month, and those alone."""

from __future__ import annotations

from pathlib import Path

import polars as pl

from eol.fleet.marks import part_marks
from eol.fleet.parts import write_part
from eol.fleet.place import open_place
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy


def test_parts_hold_their_rows(small_plant: PlantFolder, tmp_path: Path) -> None:
    """All parts of a table together are the table."""
    place = open_place(tmp_path)
    with open_copy(small_plant) as copy:
        parts = [part for part in part_marks(copy) if part.table in {"run", "unit", "zone"}]
        for number, part in enumerate(parts):
            write_part(copy, place, part, f"{number}.parquet")
        for number, part in enumerate(parts):
            rows = pl.read_parquet(tmp_path / f"{number}.parquet")
            assert (rows.height, rows.columns) == (part.rows, copy.view(part.table).columns)


def test_rows_left_out(small_plant: PlantFolder, tmp_path: Path) -> None:
    """The rows of units that are left out are not in the part."""
    with open_copy(small_plant) as copy:
        part = next(part for part in part_marks(copy) if part.table == "unit")
        gone = copy.view("unit")["vin"].head(1)
        write_part(copy, open_place(tmp_path), part, "some.parquet", left_out=gone)
    assert pl.read_parquet(tmp_path / "some.parquet").height == part.rows - 1
