"""The published copy: replaced whole, or left as it was."""

from __future__ import annotations

import errno
import shutil
from pathlib import Path

import builders as b
import plants
import pytest

from eol.errors import StoreError
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy
from eol.store.publish import publish


def no_room(source: Path, target: Path) -> None:
    """Copy half of a file, then find the disk full."""
    target.write_bytes(source.read_bytes()[:1000])
    raise OSError(errno.ENOSPC, "No space left on device")


def test_copy_is_the_store(folder: PlantFolder) -> None:
    """The copy is the store byte for byte."""
    folder.read_copy.unlink()
    assert publish(folder) == folder.read_copy
    assert folder.read_copy.read_bytes() == folder.store.read_bytes()


def test_missing_folder_is_made(folder: PlantFolder) -> None:
    """Somebody who removed the folder `read` gets it back."""
    shutil.rmtree(folder.read_folder)
    publish(folder)
    assert folder.read_copy.is_file()


def test_reader_keeps_what_it_opened(folder: PlantFolder) -> None:
    """A copy that is open stays as it was while it is replaced."""
    with open_copy(folder) as copy:
        plants.load(folder, b.file("units", [b.unit("U1")]))
        assert copy.view("unit").height == 0
    assert plants.count(folder, "unit") == 1


def test_no_room_for_the_copy(folder: PlantFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the copy has no room the old one stays, nothing is left, and the message says what to do."""
    before = folder.read_copy.read_bytes()
    monkeypatch.setattr("eol.store.publish.copy_whole", no_room)
    said = r"could not be replaced: No space left[\s\S]*run eol ingest again to publish"
    with pytest.raises(StoreError, match=said):
        publish(folder)
    assert folder.read_copy.read_bytes() == before
    assert [path.name for path in folder.read_folder.iterdir()] == ["plant.duckdb"]


def test_rows_of_a_failed_copy_come_with_the_next(
    folder: PlantFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Rows that the store took stand in the next copy, also of an ingest without files."""
    with monkeypatch.context() as patched:
        patched.setattr("eol.store.publish.copy_whole", no_room)
        with pytest.raises(StoreError):
            plants.load(folder, b.file("units", [b.unit("U1")]))
    assert plants.count(folder, "unit") == 0
    plants.load(folder)
    assert plants.column(folder, "unit", "vin") == ["U1"]


def test_leftovers_go(folder: PlantFolder) -> None:
    """What a killed publisher left beside the copy is neither read nor kept for ever."""
    (folder.read_folder / "plant.99999999.tmp").write_bytes(b"half")
    publish(folder)
    assert [path.name for path in folder.read_folder.iterdir()] == ["plant.duckdb"]


def held(folder: PlantFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the copy be held by a reader, as a system does that lets no open file be replaced."""
    plain = Path.replace

    def replace(self: Path, target: Path) -> Path:
        if target == folder.read_copy:
            raise PermissionError(errno.EACCES, "Permission denied")
        return plain(self, target)

    monkeypatch.setattr(Path, "replace", replace)


@pytest.mark.slow
def test_copy_that_is_held_gets_one_beside_it(
    folder: PlantFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the old copy cannot be replaced the new one stands beside it, and readers open the newest."""
    with monkeypatch.context() as patch:
        held(folder, patch)
        for number in range(1, 3):
            plants.load(folder, b.file("units", [b.unit(f"U{number}")], name=f"units_{number}"))
            assert plants.count(folder, "unit") == number
            assert len(list(folder.read_folder.iterdir())) == 2
    plants.load(folder, b.file("units", [b.unit("U3")], name="units_3"))
    assert plants.count(folder, "unit") == 3
    assert [path.name for path in folder.read_folder.iterdir()] == ["plant.duckdb"]
