"""A disk that fills up in the middle of a load: words, exit 3, and nothing is harmed."""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import builders as b
import plants
import pytest

from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder
from eol.store.connect import open_store, write_lock

ROWS = 4_000
SPARE = 150_000


@dataclass(frozen=True)
class SmallDisk:
    """A place with little room: a disk of its own where that can be mounted, else a limit on files."""

    place: Path
    mounted: bool

    def fill(self, spare: int) -> Callable[[], None] | None:
        """Leave so many bytes of room; return what a process must do before it starts."""
        if self.mounted:
            free = shutil.disk_usage(self.place).free
            (self.place / "ballast").write_bytes(bytes(max(free - spare, 0)))
            return None
        largest = max(path.stat().st_size for path in self.place.rglob("*") if path.is_file())
        limit = largest + spare
        return lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    def make_room(self) -> None:
        """Take away what fills it."""
        (self.place / "ballast").unlink(missing_ok=True)


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[SmallDisk]:
    """A disk of 64 MB, or a folder."""
    place = tmp_path / "small"
    place.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=64m", "tmpfs", str(place)]
    mounted = os.geteuid() == 0 and subprocess.run(mount, capture_output=True).returncode == 0
    yield SmallDisk(place, mounted)
    if mounted:
        subprocess.run(["umount", "--lazy", str(place)], check=True)


@pytest.fixture
def plant(small_disk: SmallDisk, blank_plant: PlantFolder) -> PlantFolder:
    """A plant on the small disk with one unit loaded."""
    folder = PlantFolder(shutil.copytree(blank_plant.root, small_disk.place / "plant"))
    plants.load(folder, b.file("units", [b.unit("U1")]))
    return folder


def big_file(place: Path) -> Path:
    """A file of the units feed, too big for the room that is left."""
    path = place / "units_big.csv"
    b.write_rows(path, [b.unit(plants.vin(f"B{n:05d}"), x=f"{n * 7919}") for n in range(ROWS)])
    return path


@pytest.mark.slow
def test_full_disk(plant: PlantFolder, small_disk: SmallDisk, tmp_path: Path) -> None:
    """Exit 3 in words; the copy still answers; with room again the same command completes the load."""
    path = big_file(tmp_path)
    before = plants.column(plant, "unit", "vin")
    limit = small_disk.fill(SPARE)
    command = [sys.executable, "-m", "eol", "--plant", str(plant.root), "ingest", str(path)]
    done = subprocess.run(command, capture_output=True, text=True, preexec_fn=limit)
    assert done.returncode == 3, done
    assert "Traceback" not in done.stderr
    assert str(plant.root) in done.stderr
    assert plants.column(plant, "unit", "vin") == before
    small_disk.make_room()
    with write_lock(plant), open_store(plant) as store:
        assert store.view("unit_sent").height in (1, ROWS + 1)
    ingest(plant, [path])
    assert plants.count(plant, "unit") == ROWS + 1
