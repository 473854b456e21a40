"""Whether an ingest would find anything: asked each minute, so that the copy is not published for nothing."""

from __future__ import annotations

import os
from pathlib import Path

import builders as b
import duckdb
import plants
import pytest

from eol.load.ingest import ingest
from eol.load.waiting import has_work
from eol.plant.folder import PlantFolder
from eol.plant.settings import read_settings


def works(folder: PlantFolder) -> bool:
    """Ask it of a plant."""
    return has_work(folder, read_settings(folder.toml))


@pytest.fixture
def rested(folder: PlantFolder) -> PlantFolder:
    """A plant with nothing to do: its plant.toml is older than its copy."""
    os.utime(folder.toml, (0, 0))
    return folder


def into_inbox(folder: PlantFolder, text: str = "vin,model\nU1,WAG\n") -> Path:
    """Put a file into the inbox."""
    path = folder.inbox / "units.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_nothing(rested: PlantFolder) -> None:
    """An empty inbox and an old plant.toml are no work."""
    assert not works(rested)


def test_file_in_the_inbox(rested: PlantFolder) -> None:
    """A file that came is work until it was looked at, also where it was refused and lies there still."""
    into_inbox(rested, "nonsense\n1\n")
    assert works(rested)
    ingest(rested)
    os.utime(rested.toml, (0, 0))
    assert not works(rested)


def test_changed_plant_file(folder: PlantFolder) -> None:
    """A plant.toml that was changed is work: what it declares goes into the store."""
    plants.declare(folder, b.settings())
    stamp = folder.read_copy.stat().st_mtime + 5
    os.utime(folder.toml, (stamp, stamp))
    assert works(folder)


def test_copy_of_another_version(rested: PlantFolder) -> None:
    """Where the tool was changed since, the copy lacks views: work, and the ingest that follows mends it."""
    for path in (rested.store, rested.read_copy):
        with duckdb.connect(str(path)) as store:
            store.execute("UPDATE schema_version SET views = 'other'")
    os.utime(rested.read_copy)
    assert works(rested)
    ingest(rested)
    assert not works(rested)


def test_writer_killed_before_it_published(rested: PlantFolder) -> None:
    """A store newer than its copy holds what nobody sees yet."""
    stamp = rested.read_copy.stat().st_mtime + 5
    os.utime(rested.store, (stamp, stamp))
    assert works(rested)


def test_never_loaded(rested: PlantFolder) -> None:
    """A plant without a copy has everything to do."""
    rested.read_copy.unlink()
    assert works(rested)
