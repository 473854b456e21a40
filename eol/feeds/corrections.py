"""Checked corrections in, the table `correction` out, its values in the store's own spelling.

A time becomes UTC in ISO 8601, a VIN capitals, a result or kind small letters, so that the value
can be cast where it is applied.
"""

from __future__ import annotations

import polars as pl

from eol.feeds.batch import Tables
from eol.feeds.cells import read_cells
from eol.feeds.columns import COLUMNS, Column, Type
from eol.feeds.feed import Feed
from eol.feeds.raw import FILE_ROW

TIME_FIELDS = ("started_at", "ended_at", "line_off_at")
_UTC_TEXT = "%Y-%m-%d %H:%M:%S%.6f+00:00"


def correction_tables(rows: pl.DataFrame, feed: Feed) -> Tables:
    """Return the table `correction`; ids not sent stay null here."""
    times = read_cells(_times(rows), Column("value", Type.TIME), feed).values
    value = (
        pl.when(pl.col("field") == "vin")
        .then(pl.col("value").str.to_uppercase())
        .when(pl.col("field").is_in(("result", "kind")))
        .then(pl.col("value").str.to_lowercase())
        .otherwise("value")
    )
    spelt = pl.coalesce(times.dt.to_string(_UTC_TEXT).alias("time"), value).alias("value")
    columns = [column.name for column in COLUMNS["corrections"]]
    return Tables({"correction": rows.with_columns(spelt).select(*columns, FILE_ROW)})


def correction_faults(rows: pl.DataFrame, feed: Feed) -> pl.DataFrame:
    """Return the faults of values that should be times and are none."""
    return read_cells(_times(rows), Column("value", Type.TIME), feed).faults


def _times(rows: pl.DataFrame) -> pl.Series:
    is_time = pl.col("field").is_in(TIME_FIELDS)
    return rows.select(pl.when(is_time).then(pl.col("value"))).to_series()
