"""Runs that have come and are not stored yet: lent to SQL as `arrived_run` until the stamps bring them in."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
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


UNIT_SCHEMA: dict[str, pl.DataType] = {"vin": pl.String(), "earliest_at": _TIME}
"""Columns of `arrived_unit`: a unit that a row tells of, and the earliest time that it tells, or null."""


@dataclass(frozen=True, slots=True)
class Arrived:
    """What has come without a rival: runs that are not stored yet, and the units that stored rows tell of."""

    runs: pl.DataFrame = field(default_factory=lambda: pl.DataFrame(schema=RUN_SCHEMA))
    units: pl.DataFrame = field(default_factory=lambda: pl.DataFrame(schema=UNIT_SCHEMA))

    @property
    def newest(self) -> datetime | None:
        """The latest time that the runs tell, UTC; None where there is none."""
        times = [self.runs[name].max() for name in ("started_at", "ended_at")]
        return max((at for at in times if isinstance(at, datetime)), default=None)


@contextmanager
def lent(database: Database, arrived: Arrived) -> Iterator[None]:
    """Let SQL see `arrived_run` and `arrived_unit`, and as `known_run` these runs and the stored ones."""
    with (
        database.lent("arrived_run", arrived.runs),
        database.lent("arrived_unit", arrived.units),
    ):
        database.run("load", "known_run")
        yield


def with_runs_stored(database: Database, arrived: Arrived) -> Arrived:
    """Store the runs as sent, where something must be decided that looks at all of them."""
    if arrived.runs.height:
        with database.lent("arriving", arrived.runs):
            database.run("load", "store_arrived")
    of_runs = arrived.runs.select("vin", pl.col("started_at").alias("earliest_at"))
    return Arrived(units=pl.concat([arrived.units, of_runs]))
