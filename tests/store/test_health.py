"""The machine's side of a plant: what a person should see to, and what is only told."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import NamedTuple

import builders as b
import plants
import pytest

from eol.plant.folder import PlantFolder
from eol.plant.settings import read_settings
from eol.store.backup import backup
from eol.store.health import PlantHealth, lock_holder, plant_health

NOW = datetime(2026, 9, 30, 12, tzinfo=UTC)


def health(folder: PlantFolder, *, now: datetime = NOW) -> PlantHealth:
    """The health of a plant at a moment."""
    return plant_health(folder, read_settings(folder.toml), now=now)


def looks(folder: PlantFolder, *, now: datetime = NOW) -> list[str]:
    """What asks for a look."""
    return [remark.text for remark in health(folder, now=now).remarks if remark.kind == "look"]


class Disk(NamedTuple):
    """The free bytes of a disk."""

    free: int


def test_sound_plant(small_plant: PlantFolder) -> None:
    """Sizes, growth and versions are told, and nothing asks for a look."""
    found = health(small_plant)
    assert not found.needs_a_look
    assert found.sizes["store"] == small_plant.store.stat().st_size
    assert 0 < found.growth <= found.sizes["store"]
    assert found.schema_version == found.tool_schema_version
    assert any("grows by about" in remark.text for remark in found.remarks)


def test_disk_that_fills(small_plant: PlantFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk without room for the next copy asks for a look."""
    monkeypatch.setattr(shutil, "disk_usage", lambda _: Disk(900_000_000))
    [told] = looks(small_plant)
    assert told.startswith("900 MB of disk are free")


def test_backup_ages(folder: PlantFolder, tmp_path: Path) -> None:
    """A backup is known by its note; one older than a week asks for a look; none is only told."""
    assert health(folder).last_backup_at is None
    backup(folder, tmp_path / "backup", now=NOW)
    assert health(folder).last_backup_at == NOW
    assert looks(folder, now=NOW + timedelta(days=6)) == []
    assert looks(folder, now=NOW + timedelta(days=8)) == ["the last backup is 8 days old"]


def test_copy_that_lags(folder: PlantFolder) -> None:
    """A copy much older than the store says that a publish failed."""
    later = time.time() + 3600
    os.utime(folder.store, (later, later))
    [told] = looks(folder)
    assert "older than the store" in told


def test_copy_of_a_large_store_may_lag(
    folder: PlantFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A page's answers alone have no large store copied, so that its older copy is only told of."""
    monkeypatch.setattr("eol.store.health.SMALL", 0)
    later = time.time() + 3600
    os.utime(folder.store, (later, later))
    assert looks(folder) == []


def test_own_view_that_fails(folder: PlantFolder) -> None:
    """A file of mine/ that is no view of the copy asks for a look, with its name."""
    (folder.root / "mine").mkdir()
    (folder.root / "mine" / "wrong.sql").write_text("DELETE FROM run")
    plants.load(folder, b.file("water", b.run("U1")))
    [told] = looks(folder)
    assert told.startswith("mine/wrong.sql is no view of the copy: it is not one SELECT")


def test_lock_names_its_process(folder: PlantFolder) -> None:
    """A process that writes is named; the lock goes with it."""
    assert lock_holder(folder) is None
    script = (
        "import sys; from pathlib import Path; from eol.plant.folder import PlantFolder\n"
        "from eol.store.connect import write_lock\n"
        "with write_lock(PlantFolder(Path(sys.argv[1]))): print('held', flush=True); sys.stdin.read()\n"
    )
    line = [sys.executable, "-c", script, str(folder.root)]
    with subprocess.Popen(line, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as writer:
        assert writer.stdout is not None
        assert writer.stdin is not None
        writer.stdout.readline()
        assert lock_holder(folder) == str(writer.pid)
        writer.stdin.close()
    assert lock_holder(folder) is None
