"""A checked copy: whole, readable, a plant folder of its own."""

from __future__ import annotations

import shutil
import stat
from datetime import UTC, datetime
from pathlib import Path

import builders as b
import plants
import pytest
from store_tables import changed, tables

from eol.errors import StoreError
from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder
from eol.store.backup import backup

NOW = datetime(2026, 11, 1, 3, tzinfo=UTC)


def test_copy_holds_everything(small_plant: PlantFolder, tmp_path: Path) -> None:
    """Store, plant.toml and key lie in a folder named after the plant and the time."""
    copy = backup(small_plant, tmp_path / "kept", now=NOW)
    assert copy.place == tmp_path / "kept" / "plant-20261101T030000Z"
    for name in ("plant.duckdb", "plant.toml", "pseudonym.key"):
        assert (copy.place / name).read_bytes() == (small_plant.root / name).read_bytes()
    assert (copy.rows["run"], copy.rows["unit"]) == (8, 4)
    assert copy.bytes == small_plant.store.stat().st_size


def test_key_stays_secret(small_plant: PlantFolder, tmp_path: Path) -> None:
    """The copied key is readable by its owner alone (rule 18)."""
    key = backup(small_plant, tmp_path, now=NOW).place / "pseudonym.key"
    assert stat.S_IMODE(key.stat().st_mode) == 0o600


@pytest.mark.slow
def test_restored_plant_goes_on(folder: PlantFolder, tmp_path: Path) -> None:
    """Put in the plant's place and published, the copy is the plant; later files load again."""
    files = [b.file("water", b.run(f"U{n}"), name=f"water_{n}") for n in range(2)]
    plants.load(folder, files[0])
    copy = backup(folder, tmp_path, now=NOW)
    plants.load(folder, files[1])
    restored = PlantFolder(copy.place)
    ingest(restored, [])
    assert plants.column(restored, "run", "vin") == ["U0"]
    ingest(restored, sorted((folder.root / "files").rglob("*.csv")))
    assert changed(tables(folder), tables(restored)) == []


@pytest.mark.slow
def test_restored_from_the_inbox(folder: PlantFolder, tmp_path: Path) -> None:
    """The README's way back: last week's copy in place, the taken files come in again, no figure moves."""
    plants.declare(folder, b.settings(inbox={"settle_seconds": 0}))
    copy = backup(_taken_in(folder, "U0"), tmp_path, now=NOW)
    before = tables(_taken_in(folder, "U1", "U2"))
    for kept in copy.place.iterdir():
        shutil.copy2(kept, folder.root / kept.name)
    assert plants.column(folder, "run", "vin") == ["U0", "U1", "U2"]
    for taken in folder.taken.iterdir():
        taken.rename(folder.inbox / taken.name)
    result = ingest(folder)
    assert [file.state for file in result.files] == ["loaded", "loaded"]
    assert len(list(folder.taken.iterdir())) == 3
    assert changed(before, tables(folder)) == []


def _taken_in(folder: PlantFolder, *vins: str) -> PlantFolder:
    """The plant after an ingest of its inbox, with a run of each unit."""
    for vin in vins:
        [path] = plants.write(folder, b.file("water", b.run(vin, "08:00"), name=f"water_{vin}"))
        path.rename(folder.inbox / path.name)
    ingest(folder)
    return folder


@pytest.mark.slow
def test_what_a_killed_load_left_is_in_the_copy(folder: PlantFolder, tmp_path: Path) -> None:
    """A file that was committed just before a kill lies in the log beside the store; the copy has it."""
    plants.killed_after_commit(folder, b.file("units", [b.unit("U1")]))
    copy = backup(folder, tmp_path, now=NOW)
    assert copy.rows["source_file"] == 1


def test_copy_that_differs_is_told(
    small_plant: PlantFolder, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A copy that does not read back as the store is refused by name."""
    real = shutil.copyfile

    def torn(source: Path, target: Path, **options: bool) -> None:
        real(source, target, **options)
        with target.open("r+b") as file:
            file.seek(4096)
            file.write(b"torn")

    monkeypatch.setattr("eol.store.backup.shutil.copyfile", torn)
    with pytest.raises(StoreError, match=r"plant\.duckdb: the copy differs from the store"):
        backup(small_plant, tmp_path, now=NOW)


def test_place_that_cannot_be_written(small_plant: PlantFolder, tmp_path: Path) -> None:
    """A target that is a file is told in words."""
    (tmp_path / "kept").write_text("a file", encoding="utf-8")
    with pytest.raises(StoreError, match=r"the copy cannot be written[\s\S]*Name a folder"):
        backup(small_plant, tmp_path / "kept", now=NOW)
