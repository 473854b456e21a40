"""Which files of the inbox an ingest without names takes, and where they are afterwards."""

from __future__ import annotations

import os
import time
from pathlib import Path

import builders as b
import plants
import pytest

from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder

ONE_UNIT = f"vin,model\n{plants.vin('U1')},WAG\n"


def dropped(folder: PlantFolder, name: str, text: str = ONE_UNIT, *, age: float = 60) -> Path:
    """A file in the inbox, last written some seconds ago."""
    path = folder.inbox / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    os.utime(path, (time.time() - age,) * 2)
    return path


def taken(folder: PlantFolder, **inbox: object) -> list[tuple[str, str]]:
    """What an ingest of the inbox took, by file and state, with some of its settings."""
    plants.declare(folder, b.settings(inbox={"settle_seconds": 0} | inbox))
    return sorted((file.path.name, file.state) for file in ingest(folder).files)


def lying(place: Path) -> list[str]:
    """The files below a folder."""
    return sorted(p.relative_to(place).as_posix() for p in place.rglob("*") if p.is_file())


def test_file_is_ready_when_it_has_rested(folder: PlantFolder) -> None:
    """A file that was written to within settle_seconds may still grow and stays."""
    dropped(folder, "units_1.csv", age=31)
    dropped(folder, "units_2.csv", age=10)
    assert taken(folder, settle_seconds=30) == [("units_1.csv", "loaded")]
    assert lying(folder.inbox) == ["taken/units_1.csv", "units_2.csv"]


def test_done_beside_it_says_ready(folder: PlantFolder) -> None:
    """A `.done` beside a file says that it is whole; it is no file itself and goes with it."""
    dropped(folder, "units_1.csv", age=0)
    dropped(folder, "units_1.csv.done", "", age=0)
    assert taken(folder, settle_seconds=3600) == [("units_1.csv", "loaded")]
    assert lying(folder.inbox) == ["taken/units_1.csv"]


@pytest.mark.parametrize("name", [".units.csv", "~$units.xlsx", ".snapshot/units.csv"])
def test_files_of_other_programs_are_passed_over(folder: PlantFolder, name: str) -> None:
    """Hidden files and those that an office program keeps beside an open one are nobody's data."""
    dropped(folder, name)
    assert taken(folder) == []
    assert lying(folder.inbox) == [name]


def test_taken_files_are_not_taken_again(folder: PlantFolder) -> None:
    """What lies in inbox/taken stays; files of other folders are taken and keep their folder."""
    dropped(folder, "taken/units_1.csv", "vin\n")
    dropped(folder, "line 2/units_2.csv")
    assert taken(folder) == [("units_2.csv", "loaded")]
    assert lying(folder.taken) == ["line 2/units_2.csv", "units_1.csv"]


@pytest.mark.slow
def test_same_name_again_keeps_both(folder: PlantFolder) -> None:
    """A later file of the same name never replaces one that was taken."""
    for model in ("WAG", "VAN", "SUV"):
        dropped(folder, "units.csv", ONE_UNIT.replace("WAG", model))
        assert taken(folder) == [("units.csv", "loaded")]
    assert len(lying(folder.taken)) == 3
    assert (folder.taken / "units.csv").read_text(encoding="utf-8") == ONE_UNIT
    assert plants.count(folder, "source_file") == 3


def test_plant_may_leave_files_where_they_are(folder: PlantFolder) -> None:
    """With taken = "leave" nothing is moved, and the next ingest loads nothing twice."""
    dropped(folder, "units_1.csv")
    assert taken(folder, taken="leave") == [("units_1.csv", "loaded")]
    assert ("units_1.csv", "loaded") not in taken(folder, taken="leave")
    assert lying(folder.inbox) == ["units_1.csv"]


def test_refused_file_stays(folder: PlantFolder) -> None:
    """What was taken moves, what was refused stays where a person finds it."""
    dropped(folder, "units_1.csv")
    dropped(folder, "letter_1.csv", "to whom it may concern\n")
    assert taken(folder) == [("letter_1.csv", "refused"), ("units_1.csv", "loaded")]
    assert plants.column(folder, "unit", "vin") == ["U1"]
    assert lying(folder.inbox) == ["letter_1.csv", "taken/units_1.csv"]


def test_named_files_stay(folder: PlantFolder) -> None:
    """A file that was named is left where it is."""
    path = dropped(folder, "units_1.csv")
    ingest(folder, [path])
    assert path.is_file()
