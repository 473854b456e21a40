"""Runs that have come and are not stored yet: lent to SQL as `arrived_run` until the stamps bring them in."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime

import polars as pl

from eol.store.database import Database

_TIME = pl.Datetime("us", "UTC")
RUN_SCHEMA: dict[str, pl.DataType] = {
    "run_id": pl.Int64(),
    "vin": pl.String(),
    "test": pl.String(),
    "station": pl.String(),
    "bay": pl.String(),
    "run_ref": pl.String(),
    "started_at": _TIME,
    "ended_at": _TIME,
    "result": pl.String(),
    "purpose": pl.String(),
    "program": pl.String(),
    "operator": pl.String(),
    "last_step": pl.String(),
    "revision": pl.Int64(),
    "file_id": pl.Int64(),
    "file_row": pl.Int64(),
}
"""Columns of `arrived_run`: a run as sent, of which the store knows no other version."""


def no_runs() -> pl.DataFrame:
    """Return no run, with the columns of `arrived_run`."""
    return pl.DataFrame(schema=RUN_SCHEMA)


@contextmanager
def arrived(database: Database, runs: pl.DataFrame) -> Iterator[None]:
    """Let SQL see runs as `arrived_run`, and these and the stored ones as `known_run`, while the block runs."""
    with database.lent("arrived_run", runs):
        database.run("load", "known_run")
        yield


def newest_of(runs: pl.DataFrame) -> datetime | None:
    """Return the latest time that runs tell, UTC; None where there is none."""
    times = [runs[name].max() for name in ("started_at", "ended_at")]
    return max((at for at in times if isinstance(at, datetime)), default=None)


def store_arrived(database: Database, runs: pl.DataFrame) -> None:
    """Store runs that have come as sent, where something must be decided that looks at all runs."""
    if runs.height:
        with database.lent("arriving", runs):
            database.run("load", "store_arrived")
