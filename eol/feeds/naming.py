"""What names a run: its run_ref, or its unit and start.

Carries rule 1: a run is known by run_ref within its station where one is given, else by unit,
station and start to the second; the test is the feed's own.
"""

from __future__ import annotations

import polars as pl

from eol.feeds.raw import FILE_ROW

RUN_KEY = ("station", "run_ref", "eol.unit", "eol.second")
"""The columns that `with_run_key` leaves as the name of a run."""


def with_run_key(rows: pl.DataFrame) -> pl.DataFrame:
    """Add what names the run of each row beside its station and run_ref."""
    unnamed = pl.col("run_ref").is_null()
    second = pl.col("started_at").dt.epoch("s")
    return rows.with_columns(
        pl.when(unnamed).then(pl.col("vin")).alias("eol.unit"),
        pl.when(unnamed).then(second).alias("eol.second"),
    )


def repeated(rows: pl.DataFrame, columns: tuple[str, ...]) -> pl.Series:
    """Return which rows share their key with another; a rare one that shares only its hash too."""
    return rows.select(pl.struct(columns).hash()).to_series().is_duplicated()


def selected(rows: pl.DataFrame, columns: tuple[str, ...]) -> pl.DataFrame:
    """Return the columns of a table and file_row."""
    return rows.select(*columns, FILE_ROW)
