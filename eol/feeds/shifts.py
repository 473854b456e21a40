"""Checked rows of the feed shifts in, the table `shift_window` out (rule 3).

A row without times, as one that names a crew or cancels a shift, takes those of plant.toml.
"""

from __future__ import annotations

from datetime import date

import polars as pl

from eol.feeds.batch import Tables
from eol.feeds.columns import COLUMNS
from eol.feeds.feed import Feed
from eol.feeds.raw import FILE_ROW
from eol.feeds.times import UTC
from eol.plant.calendar import shift_windows

_FIRST, _LAST = date(1970, 1, 1), date(2199, 12, 31)
_DECLARED: dict[str, pl.DataType | type[pl.DataType]] = {
    "production_date": pl.Date,
    "shift": pl.String,
    "starts": UTC,
    "ends": UTC,
}


def shift_tables(rows: pl.DataFrame, feed: Feed) -> Tables:
    """Return the table `shift_window`."""
    filled = _with_declared(rows, feed).with_columns(pl.col("cancelled").fill_null(False))
    columns = [column.name for column in COLUMNS["shifts"]]
    return Tables({"shift_window": filled.select(*columns, FILE_ROW)})


def shift_faults(rows: pl.DataFrame, feed: Feed) -> pl.DataFrame:
    """Return the faults of rows whose times neither the file nor plant.toml gives."""
    filled = _with_declared(rows, feed).with_row_index("row")
    open_end = pl.col("starts_at").is_null() | pl.col("ends_at").is_null()
    timeless = filled.filter(open_end & ~pl.col("cancelled").fill_null(False))
    reason = pl.format(
        "starts_at: plant.toml has no shift '{}' on {}; give the row starts_at and ends_at",
        pl.col("shift").fill_null(""),
        pl.col("production_date").cast(pl.String).fill_null("that day"),
    )
    return timeless.select("row", reason=reason)


def _with_declared(rows: pl.DataFrame, feed: Feed) -> pl.DataFrame:
    """Fill times that were not sent; a row with one of them alone keeps its gap."""
    timeless = pl.col("starts_at").is_null() & pl.col("ends_at").is_null()
    days = rows.filter(timeless)["production_date"].drop_nulls().unique().sort()
    windows = [
        (window.production_date, window.shift, window.starts_at, window.ends_at)
        for day in days.filter(days.is_between(_FIRST, _LAST))
        for window in shift_windows(feed.settings, day, day)
    ]
    declared = pl.DataFrame(windows, schema=_DECLARED, orient="row")
    joined = rows.join(declared, on=["production_date", "shift"], how="left", maintain_order="left")
    return joined.with_columns(
        pl.when(timeless).then(pl.col("starts")).otherwise("starts_at").alias("starts_at"),
        pl.when(timeless).then(pl.col("ends")).otherwise("ends_at").alias("ends_at"),
    )
