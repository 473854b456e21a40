"""Files whose rows nothing contests are written at once; the tables are those that file by file gives."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import builders as b
import plants
import pytest
from second_opinion import File
from store_tables import Rows, changed, moved_by_stamping_all, tables

from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder

HOUR = timedelta(hours=1)
ROWS = {
    "several rows of a run": b.run("U1", "08:00", "fail", "LEAK/RRQ", "HISS/LRQ"),
    "named by the bench": b.run("U1", "08:00", "fail", "LEAK", run_ref="W-1"),
    "of a unit unknown so far": b.run("U7", "09:00"),
}


def one_by_one(folder: PlantFolder, place: Path, files: list[File]) -> dict[str, Rows]:
    """Load files into a plant at once, and each by itself into another, whose tables are given."""
    paths = plants.write(folder, *files)
    ingest(folder, paths)
    alone = plants.made(place / "alone")
    for path in reversed(paths):
        ingest(alone, [path])
    return tables(alone)


@pytest.mark.slow
@pytest.mark.parametrize("story", ROWS)
def test_together_as_one_by_one(folder: PlantFolder, tmp_path: Path, story: str) -> None:
    """A story and what others tell of the same unit: in one load, or each file in a load of its own."""
    files = [
        b.file("units", [b.unit("U1", roof="fixed"), b.unit("U2")]),
        b.file("water", ROWS[story] + b.run("U2", "08:30")),
        b.file("water", b.run("U1", "12:00"), name="water_later"),
        b.file("repairs", [b.repair("U1", "10:00"), b.repair("U2", "10:00")]),
    ]
    assert changed(one_by_one(folder, tmp_path, files), tables(folder)) == []
    assert moved_by_stamping_all(folder) == []


@pytest.mark.slow
def test_rivals_in_one_load(folder: PlantFolder, tmp_path: Path) -> None:
    """Two files of one load that tell of the same run, unit and repair: rank decides, as between loads."""
    files = [
        b.file("water", b.run("U1", "08:00", "fail", "LEAK")),
        b.file("water", b.run("U1", "08:00"), name="water_again", made_at=b.MADE_AT + HOUR),
        b.file("units", [b.unit("U1", model="WAG")]),
        b.file("units", [b.unit("U1", model="WAG")], name="units_again"),
        b.file("repairs", [b.repair("U1", None, repair_id="R-1")]),
        b.file("repairs", [b.repair("U1", "10:00", repair_id="R-1")], name="repairs_again"),
    ]
    assert changed(one_by_one(folder, tmp_path, files), tables(folder)) == []
    assert plants.count(folder, "run", result="pass") == 1


def test_rows_without_an_id_are_all_kept(folder: PlantFolder) -> None:
    """The store names repairs and events by what they tell; a row told twice stands once."""
    repairs = [b.repair(vin, "10:00", repair_id=None) for vin in ("U1", "U2", "U2")]
    events = [b.event(vin, "move", event_id=None) for vin in ("U1", "U2", "U2")]
    plants.load(folder, b.file("repairs", repairs), b.file("events", events))
    assert (plants.count(folder, "repair"), plants.count(folder, "event")) == (2, 2)
