"""What names a unit, its VIN or a unit key, and a run, its run_ref or its start.

Carries rule 1: a run is known by run_ref within its station where one is given, else by unit,
station and start to the second; the test is the feed's own.
"""

from __future__ import annotations

import polars as pl

from eol.feeds.feed import Feed
from eol.feeds.raw import FILE_ROW

RUN_KEY = ("station", "run_ref", "eol.unit", "eol.second")
"""The columns that `with_run_key` leaves as the name of a run."""

KEY_COLUMNS = ("key_kind", "key_value")


def with_unit_key(rows: pl.DataFrame, feed: Feed) -> pl.DataFrame:
    """Add key_kind and key_value, null where the row has a VIN; nothing where VINs are the names."""
    if feed.key_kind is None:
        return rows
    by_key = pl.col("vin").is_null() & pl.col(feed.key_kind).is_not_null()
    return rows.with_columns(
        pl.when(by_key).then(pl.lit(feed.key_kind)).alias("key_kind"),
        pl.when(by_key).then(pl.col(feed.key_kind)).alias("key_value"),
    )


def with_run_key(rows: pl.DataFrame, feed: Feed) -> pl.DataFrame:
    """Add what names the run of each row beside its station and run_ref."""
    unit = pl.col("vin") if feed.key_kind is None else pl.coalesce("vin", "key_value")
    unnamed = pl.col("run_ref").is_null()
    second = pl.col("started_at").dt.epoch("s")
    return rows.with_columns(
        pl.when(unnamed).then(unit).alias("eol.unit"),
        pl.when(unnamed).then(second).alias("eol.second"),
    )


def repeated(rows: pl.DataFrame, columns: tuple[str, ...]) -> pl.Series:
    """Return which rows share their key with another; a rare one that shares only its hash too."""
    return rows.select(pl.struct(columns).hash()).to_series().is_duplicated()


def selected(rows: pl.DataFrame, columns: tuple[str, ...], feed: Feed) -> pl.DataFrame:
    """Return the columns of a table, file_row and, where units are named by key, the key."""
    keys = KEY_COLUMNS if feed.key_kind is not None and "vin" in columns else ()
    return rows.select(*columns, FILE_ROW, *keys)
