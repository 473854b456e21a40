"""Retention: what is old and decides nothing goes; no figure and no stamp changes."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

import builders as b
import plants
import pytest

from eol.plant.folder import PlantFolder
from eol.store.verify import verify

OLD = date(2026, 6, 1)


def kept_for(folder: PlantFolder, **days: int) -> None:
    """Declare how long tables are kept."""
    plants.declare(folder, b.settings(retention=days))


def readings(folder: PlantFolder) -> list[tuple[str, Any]]:
    """Name and value of each reading kept."""
    return sorted((row["name"], row["value"]) for row in plants.rows(folder, "reading"))


@pytest.fixture
def loaded(folder: PlantFolder) -> PlantFolder:
    """An old run with several samples of a required condition and of another, and a young run."""
    old = b.run("U1", b.at("08:00", OLD), pressure_kpa=None)
    samples = [(1, 240), (2, 230), (3, 260), (4, 250)]
    values = [("pressure_kpa", n, value) for n, value in samples] + [("flow", 1, 40)]
    head = {name: old[0][name] for name in ("vin", "station", "started_at")}
    rows = [head | {"name": name, "sample": n, "value": value} for name, n, value in values]
    plants.load(folder, b.file("water", old), b.file("water_readings", rows))
    plants.load(folder, b.file("water", b.run("U2"), name="water_young"))
    return folder


@pytest.mark.slow
def test_old_readings_that_decide_nothing_go(loaded: PlantFolder) -> None:
    """Of a required condition the lowest and highest stay; a young run keeps all; 0 days is for ever."""
    before = plants.rows(loaded, "unit_status"), plants.rows(loaded, "ftt_by_shift")
    assert len(readings(loaded)) == 6
    kept_for(loaded, reading=30)
    plants.load(loaded)
    assert readings(loaded) == [
        ("pressure_kpa", 230.0),
        ("pressure_kpa", 250.0),
        ("pressure_kpa", 260.0),
    ]
    assert (plants.rows(loaded, "unit_status"), plants.rows(loaded, "ftt_by_shift")) == before
    assert verify(loaded).differences == ()


def test_refused_rows_go_by_their_load(folder: PlantFolder) -> None:
    """A refused row goes once its file was loaded long enough ago; the file's count of it stays."""
    wrong = b.file("water", b.run("U1", result="maybe"))
    now = datetime(2026, 9, 30, 12, tzinfo=UTC)
    plants.load(folder, wrong, now=now)
    kept_for(folder, rejected_row=10)
    plants.load(folder, now=now + timedelta(days=9))
    assert plants.count(folder, "rejected_row") == 1
    plants.load(folder, now=now + timedelta(days=11))
    assert plants.count(folder, "rejected_row") == 0
    assert plants.column(folder, "source_file", "rejected") == [1]
