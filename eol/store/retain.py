"""Drops what [retention] lets go: old readings that decide nothing, and old refused rows. No figure changes.

A reading that a stamp could ask for again stays whatever its age, so that stamps made anew are the same
(rule 4). Age goes by the data clock; that of refused rows by when their file was loaded.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from eol.plant.sections import RetentionSettings
from eol.store.database import Database

_RUN_ID_STEP = 2**30
"""A run_id is the second of the run's start times this, and more."""


def retain(store: Database, retention: RetentionSettings, *, now: datetime) -> None:
    """Drop what is older than it has to be kept; the caller commits.

    Args:
        store: the open store.
        retention: days by table; 0 is for ever.
        now: the wall clock, UTC.
    """
    if retention.reading:
        clock = store.query_rows("store", "data_clock")[0][0]
        if clock is not None:
            before = int((clock - timedelta(days=retention.reading)).timestamp()) * _RUN_ID_STEP
            store.run("retain", "reading", before_run_id=before)
            store.run("retain", "superseded_reading", before_run_id=before)
    if retention.rejected_row:
        store.run("retain", "rejected_row", before=now - timedelta(days=retention.rejected_row))
