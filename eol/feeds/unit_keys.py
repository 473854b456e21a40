"""Rows that name their unit by a unit key in, the same rows with the unit's VIN out (rule 17).

A key is asked for at the row's own time, for a skid carries one unit after the other. A row whose
key names no unit then is not accepted: it waits, and is tried again when its key has come.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC as UTC_ZONE
from datetime import datetime

import polars as pl

from eol.feeds.columns import Type
from eol.feeds.feed import Feed
from eol.feeds.raw import FILE_ROW
from eol.feeds.times import UTC
from eol.plant.clock import moment_to_utc
from eol.plant.sections import ClockOffsetSettings

KEYS_SCHEMA: dict[str, pl.DataType | type[pl.DataType]] = {
    "kind": pl.String,
    "value": pl.String,
    "vin": pl.String,
    "valid_from": UTC,
    "valid_to": UTC,
}
"""A frame of unit keys: half-open times, UTC, null for an open end."""

OWN_TIMES = ("started_at", "at", "line_off_at", "ended_at", "entered_at")
"""The column that tells a row's own time: the first of these that it has."""

_WAITING_SCHEMA = {FILE_ROW: pl.Int64, "reason": pl.String, "waits_for": pl.String}
_NAMED_SCHEMA: dict[str, pl.DataType | type[pl.DataType]] = {
    FILE_ROW: pl.Int64,
    "key": pl.String,
    "at": UTC,
    "vin": pl.String,
}
_REASON = "waits for the unit key {} {}; it is tried again when the feed unit_keys brings it"
_FOUND = "eol.found"
_EVER = datetime(1, 1, 1, tzinfo=UTC_ZONE)


@dataclass(frozen=True, slots=True)
class Named:
    """Rows whose unit is known, and those that wait.

    Attributes:
        rows: the rows that stay, their vin filled.
        waiting: file_row, reason and waits_for ("skid=123") of the others.
        keyed: file_row, key ("skid=123"), at (UTC) and vin of those rows that a key named.
    """

    rows: pl.DataFrame
    waiting: pl.DataFrame
    keyed: pl.DataFrame


def name_units(rows: pl.DataFrame, feed: Feed) -> Named:
    """Fill the VIN of rows that name their unit by the feed's kind of key.

    A VIN in the row goes first. A finding or reading with a run_ref names its run, so its unit is
    not asked for.

    Args:
        rows: checked rows.
        feed: the feed, with the unit keys known so far.
    """
    kind = feed.key_kind
    if kind is None:
        return Named(rows, pl.DataFrame(schema=_WAITING_SCHEMA), pl.DataFrame(schema=_NAMED_SCHEMA))
    asked = pl.col("vin").is_null() & pl.col(kind).is_not_null()
    if feed.kind in ("findings", "readings"):
        asked &= pl.col("run_ref").is_null()
    found = rows.filter(asked).select(
        FILE_ROW, pl.col(kind).alias("value"), own_time(feed).alias("at")
    )
    vins = found.select(FILE_ROW, pl.Series(_FOUND, _vins(found, _keys(feed, kind))))
    named = rows.join(vins, on=FILE_ROW, how="left", maintain_order="left")
    named = named.with_columns(pl.coalesce("vin", _FOUND).alias("vin")).drop(_FOUND)
    lost = found.filter(vins[_FOUND].is_null())
    keyed = found.with_columns(vins[_FOUND].alias("vin")).filter(vins[_FOUND].is_not_null())
    return Named(
        rows=named.join(lost, on=FILE_ROW, how="anti", maintain_order="left"),
        waiting=_wait(lost, kind),
        keyed=keyed.select(FILE_ROW, _key(kind).alias("key"), "at", "vin"),
    )


def own_time(feed: Feed) -> pl.Expr:
    """The time of a row, its station's clock set right (rule 1); null where the row has none."""
    told = {column.name for column in feed.columns if column.type in (Type.TIME, Type.MOMENT)}
    at = pl.coalesce(*(pl.col(name) for name in OWN_TIMES if name in told), pl.lit(None, dtype=UTC))
    if feed.test is None:
        return at
    lags = [_lag(at, offset, feed) for offset in feed.settings.clock_offsets]
    return at + pl.coalesce(*lags, pl.duration(seconds=0)) if lags else at


def _lag(at: pl.Expr, offset: ClockOffsetSettings, feed: Feed) -> pl.Expr:
    """What is added to a station's times while its clock is wrong, null at other times."""
    zone = feed.settings.plant.zone
    wrong = (pl.col("station") == offset.station) & (at >= moment_to_utc(offset.valid_from, zone))
    if offset.valid_to is not None:
        wrong &= at < moment_to_utc(offset.valid_to, zone)
    return pl.when(wrong).then(pl.duration(microseconds=round(offset.seconds * 1e6)))


def _keys(feed: Feed, kind: str) -> pl.DataFrame:
    if feed.unit_keys is None:
        return pl.DataFrame(schema=KEYS_SCHEMA)
    return feed.unit_keys.filter(pl.col("kind") == kind)


def _vins(asked: pl.DataFrame, keys: pl.DataFrame) -> pl.Series:
    """The VIN of each key at its time, null where it names none; without a time its newest."""
    begins = keys.select(
        "value",
        "vin",
        pl.col("valid_from").fill_null(_EVER).alias("since"),
        pl.col("valid_to").alias("until"),
    )
    # A key that was given on names its new unit alone, so the last one that had begun decides.
    last = asked.with_columns(since=pl.col("at").fill_null(pl.lit(datetime.max).cast(UTC))).sort(
        "since", maintain_order=True
    )
    met = last.join_asof(
        begins.sort("since", "vin"), on="since", by="value", check_sortedness=False
    )
    over = (pl.col("at") >= pl.col("until")).fill_null(False)
    answers = met.select(FILE_ROW, pl.when(~over).then("vin").alias("vin"))
    return asked.join(answers, on=FILE_ROW, how="left", maintain_order="left")["vin"]


def _key(kind: str) -> pl.Expr:
    return pl.format("{}={}", pl.lit(kind), "value")


def _wait(lost: pl.DataFrame, kind: str) -> pl.DataFrame:
    return lost.select(
        FILE_ROW,
        pl.format(_REASON, pl.lit(kind), "value").alias("reason"),
        _key(kind).alias("waits_for"),
    )
