"""Runs that have come and are not stored yet."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import polars as pl

from eol.plant.folder import PlantFolder
from eol.store.arrived import RUN_SCHEMA, Arrived, lent, with_runs_stored
from eol.store.connect import open_store, write_lock

START = datetime(2026, 9, 8, 6, tzinfo=UTC)


def one_run() -> pl.DataFrame:
    """A run that lasted four minutes."""
    told = {"run_id": 1, "vin": "U1", "started_at": START, "ended_at": START + timedelta(minutes=4)}
    return pl.DataFrame([told], schema=RUN_SCHEMA)


def test_newest_time() -> None:
    """The latest end tells how far the calendar must reach; without runs there is none."""
    assert Arrived(one_run()).newest == START + timedelta(minutes=4)
    assert Arrived().newest is None


def test_known_before_they_are_stored(folder: PlantFolder) -> None:
    """SQL sees them beside the stored ones; once stored they are there as sent."""
    with write_lock(folder), open_store(folder) as store:
        with lent(store, Arrived(one_run())):
            known = store.query("SELECT vin_sent FROM known_run", {})
        assert known["vin_sent"].to_list() == ["U1"]
        assert store.view("run").is_empty()
        assert with_runs_stored(store, Arrived(one_run())).runs.is_empty()
        assert store.view("run", run_id=1)["vin_sent"].to_list() == ["U1"]
