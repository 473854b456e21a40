"""kill -9 in the middle of a load: each file is there wholly or not at all, and loading again completes it."""

from __future__ import annotations

import shutil
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from random import Random

import builders as b
import plants
import pytest
from load_worker import Worker
from store_tables import Rows, changed, moved_by_stamping_all, tables

from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder
from eol.store.connect import open_store, write_lock

UNITS = 400


@dataclass(frozen=True)
class Whole:
    """A load that nobody interrupted: its files, what it made, and how long it took."""

    start: PlantFolder
    paths: list[Path]
    tables: dict[str, Rows]
    parts: dict[int, Counter[str]]
    seconds: float


@pytest.fixture(scope="module")
def whole(blank_plant: PlantFolder, tmp_path_factory: pytest.TempPathFactory) -> Whole:
    """The load that the others are held against."""
    folder = copy_of(blank_plant, tmp_path_factory.mktemp("whole"))
    paths = plants.write(folder, *sent())
    worker = Worker(folder, paths)
    began = time.monotonic()
    worker.begin()
    worker.finish()
    seconds = time.monotonic() - began
    return Whole(blank_plant, paths, tables(folder), rows_by_file(folder), seconds)


def copy_of(folder: PlantFolder, place: Path) -> PlantFolder:
    """A plant to write to."""
    return PlantFolder(shutil.copytree(folder.root, place / "plant"))


def sent() -> Iterator[b.File]:
    """Units, three files of runs with findings, a file of repairs."""
    vins = [f"U{n:05d}" for n in range(UNITS)]
    yield b.file("units", [b.unit(vin, roof="fixed") for vin in vins])
    for number, hour in enumerate(("07", "10", "13")):
        results = ("fail", "LEAK/RRQ", "HISS/LRQ") if number == 0 else ("pass",)
        ends = [f"{hour}:{n // 60 % 60:02d}:{n % 60:02d}" for n in range(UNITS)]
        runs = [b.run(vin, end, *results) for vin, end in zip(vins, ends, strict=True)]
        yield b.file("water", [row for run in runs for row in run], name=f"water_{number}")
    yield b.file("repairs", [b.repair(vin, "09:00") for vin in vins])


def rows_by_file(folder: PlantFolder) -> dict[int, Counter[str]]:
    """How many rows of which table each file has."""
    found: dict[int, Counter[str]] = {}
    with write_lock(folder), open_store(folder) as store:
        for name in (
            "source_file",
            "unit_sent",
            "attribute",
            "run",
            "finding",
            "reading",
            "repair",
        ):
            for file_id in store.view(name)["file_id"].drop_nulls():
                found.setdefault(file_id, Counter())[name] += 1
    return found


def held_together(whole: Whole, place: Path, *, share: float) -> None:
    """Kill a load after a share of its time, look, load again, look again."""
    folder = copy_of(whole.start, place)
    worker = Worker(folder, whole.paths)
    worker.begin()
    time.sleep(share * whole.seconds)
    worker.kill()
    for file_id, parts in rows_by_file(folder).items():
        assert parts == whole.parts[file_id]
    ingest(folder, whole.paths)
    assert changed(whole.tables, tables(folder)) == []
    assert moved_by_stamping_all(folder) == []


@pytest.mark.slow
@pytest.mark.parametrize(
    "share", [0.6, *(pytest.param(share, marks=pytest.mark.slow) for share in (0.3, 0.9))]
)
def test_killed_load(whole: Whole, tmp_path: Path, share: float) -> None:
    """Early, in the middle and while the copy is published."""
    held_together(whole, tmp_path, share=share)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(100))
def test_load_killed_at_any_moment(whole: Whole, tmp_path: Path, seed: int) -> None:
    """A hundred random moments."""
    held_together(whole, tmp_path, share=Random(seed).uniform(0, 1.1))
