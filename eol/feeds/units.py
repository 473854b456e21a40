"""Checked rows of the feeds units and attributes in, units as sent and attributes out.

In `units` every column that is not the tool's own is an attribute of the unit.
"""

from __future__ import annotations

from collections.abc import Sequence

import polars as pl

from eol.feeds.batch import Tables
from eol.feeds.cells import read_numbers
from eol.feeds.feed import Feed
from eol.feeds.naming import selected
from eol.feeds.raw import FILE_ROW
from eol.feeds.times import UTC

UNIT_COLUMNS = ("vin", "build_seq", "model", "line", "kind", "line_off_at")
ATTRIBUTE_COLUMNS = (
    "vin",
    "name",
    "at",
    "station",
    "source",
    "text_value",
    "number_value",
    "measure_unit",
)
_ATTRIBUTE_SCHEMA: dict[str, pl.DataType | type[pl.DataType]] = {
    **dict.fromkeys(ATTRIBUTE_COLUMNS, pl.String),
    "at": UTC,
    "number_value": pl.Float64,
    FILE_ROW: pl.Int64,
}


def unit_tables(rows: pl.DataFrame, feed: Feed, extra: Sequence[str]) -> Tables:
    """Return the tables `unit_sent` and `attribute` of the feed units.

    Args:
        rows: the accepted rows.
        feed: the feed.
        extra: the columns that are attributes; an empty cell is none.
    """
    attributes = [_attribute(rows, name, feed) for name in extra]
    empty = pl.DataFrame(schema=_ATTRIBUTE_SCHEMA)
    return Tables(
        {
            "unit_sent": selected(rows, UNIT_COLUMNS),
            "attribute": pl.concat(attributes) if attributes else empty,
        }
    )


def attribute_tables(rows: pl.DataFrame, feed: Feed) -> Tables:
    """Return the table `attribute`; a value sent as text alone is a number too where it can be."""
    numbers = read_numbers(rows["text_value"], feed.options.decimal)
    filled = rows.with_columns(
        pl.coalesce("text_value", pl.col("number_value").cast(pl.String)).alias("text_value"),
        pl.coalesce("number_value", numbers.alias("number")).alias("number_value"),
    )
    return Tables({"attribute": selected(filled, ATTRIBUTE_COLUMNS)})


def _attribute(rows: pl.DataFrame, name: str, feed: Feed) -> pl.DataFrame:
    sent = rows[name]
    numbers = read_numbers(sent, feed.options.decimal).alias("number_value")
    unit = feed.options.measure_units.get(name)
    table = rows.select(
        "vin",
        pl.lit(name).alias("name"),
        pl.col("line_off_at").alias("at"),
        pl.lit(None, dtype=pl.String).alias("station"),
        pl.lit("units").alias("source"),
        sent.cast(pl.String).alias("text_value"),
        numbers,
        pl.lit(unit, dtype=pl.String).alias("measure_unit"),
        FILE_ROW,
    )
    return table.filter(pl.col("text_value").is_not_null())
