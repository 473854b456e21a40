"""Times as files send them, ISO 8601 or the plant's own, local or with offset, made UTC (rule 3).

A local time that never was is told apart from one that cannot be read; of a local time that came
twice both readings are kept, for eol.feeds.passes to choose.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC as UTC_ZONE
from datetime import datetime, timedelta
from typing import Literal

import polars as pl

from eol.feeds.day_number import day_number_time
from eol.feeds.raw import same_value
from eol.plant.clock import time_zone

UTC = pl.Datetime("us", "UTC")
LOCAL = pl.Datetime("us")

_FAST = (
    "%Y-%m-%dT%H:%M:%SZ",
    "%Y-%m-%d %H:%M:%S",
    "%Y-%m-%dT%H:%M:%S",
    "%Y-%m-%dT%H:%M:%S%.fZ",
    "%Y-%m-%d %H:%M:%S%.f",
    "%Y-%m-%dT%H:%M:%S%.f",
    "%Y-%m-%dT%H:%M:%S%.f%#z",
    "%Y-%m-%d %H:%M:%S%.f%#z",
)
"""The usual spellings: most columns keep to one, which then reads them whole."""

_SLOW = (
    "%Y-%m-%d %H:%M:%S%.f",
    "%Y-%m-%d %H:%M",
    "%Y-%m-%d %H:%M:%S%.f%#z",
    "%Y-%m-%d %H:%M%#z",
)
_ISO_DATE = "%Y-%m-%d"
_DAY_NUMBER = r"^[2-7]\d{4}\.\d+$"
"""1954 to 2119 with a time of day; a whole number may be anything else."""


@dataclass(frozen=True, slots=True)
class Times:
    """A column of times in UTC.

    Attributes:
        first: the time; of one that came twice the earlier; null where there is none.
        second: the later reading of a local time that came twice, else null.
        unread: true where something was sent that is no time.
        never: a local time that was sent but that no clock of the zone showed, else null.
    """

    first: pl.Series
    second: pl.Series
    unread: pl.Series
    never: pl.Series


def read_times(
    sent: pl.Series, *, zone: str, time_format: str | None = None, dates: bool = False
) -> Times:
    """Read a column of times.

    Args:
        sent: text, or native times and dates as Parquet has them; with a zone they are taken as
            they are, without one they are local.
        zone: IANA name or fixed offset ("+01:00") of local times.
        time_format: the plant's own format, tried before ISO 8601; with %z it carries its offset.
        dates: whether a bare date is a time, its local midnight.

    Returns:
        The times in UTC with the faults beside them.

    Example:
        >>> read_times(pl.Series(["2026-09-08 06:00"]), zone="Europe/Berlin").first[0].isoformat()
        '2026-09-08T04:00:00+00:00'
    """
    if isinstance(sent.dtype, pl.Datetime) or (sent.dtype == pl.Date and dates):
        return _native(sent, zone)
    text = sent.cast(pl.String)
    utc, local = _parse(text, time_format, dates=dates)
    times = local_to_utc(local, zone)
    unread = text.is_not_null() & utc.is_null() & local.is_null()
    return Times(_filled(utc, times.first), times.second, unread, times.never)


def read_dates(sent: pl.Series, *, zone: str, time_format: str | None = None) -> pl.Series:
    """Read a column of dates, bare or as the local day of a time; null where it is none."""
    if sent.dtype == pl.Date:
        return sent
    if isinstance(sent.dtype, pl.Datetime):
        return local_times(sent, zone).dt.date() if sent.dtype.time_zone else sent.dt.date()
    text = sent.cast(pl.String)
    utc, local = _parse(text, time_format, dates=True)
    return _filled(local.dt.date(), local_times(utc, zone).dt.date())


def local_to_utc(local: pl.Series, zone: str) -> Times:
    """Make local times UTC, telling those that came twice and those that never were (rule 3)."""
    offset = time_zone(zone).utcoffset(None)
    if offset is not None or local.null_count() == len(local):
        return _certain((local - (offset or timedelta())).dt.replace_time_zone("UTC"))
    first, last = _in_zone(local, zone, "earliest"), _in_zone(local, zone, "latest")
    second = last.set(~(first != last).fill_null(False), None)
    return Times(first, second, _false(len(local)), local.set(first.is_not_null(), None))


def local_times(utc: pl.Series, zone: str) -> pl.Series:
    """Return UTC times as the clocks of a zone or fixed offset show them, without a zone."""
    offset = time_zone(zone).utcoffset(None)
    if offset is not None:
        return utc.dt.convert_time_zone("UTC").dt.replace_time_zone(None) + offset
    return utc.dt.convert_time_zone(zone).dt.replace_time_zone(None)


def text_time(text: str, *, time_format: str, zone: str) -> datetime | None:
    """Read one time, local in a zone, in the manner of strptime; None where it is none."""
    try:
        local = datetime.strptime(text, time_format)
    except ValueError:
        return None
    aware = local if local.tzinfo else local.replace(tzinfo=time_zone(zone))
    return aware.astimezone(UTC_ZONE)


def _native(sent: pl.Series, zone: str) -> Times:
    if not getattr(sent.dtype, "time_zone", None):
        return local_to_utc(sent.cast(LOCAL), zone)
    return _certain(sent.dt.convert_time_zone("UTC").cast(UTC))


def _certain(utc: pl.Series) -> Times:
    """Times without a fault or a second reading."""
    return Times(utc, _nulls(len(utc), UTC), _false(len(utc)), _nulls(len(utc), LOCAL))


def _in_zone(local: pl.Series, zone: str, choose: Literal["earliest", "latest"]) -> pl.Series:
    zoned = pl.col("at").dt.replace_time_zone(zone, ambiguous=choose, non_existent="null")
    return local.to_frame("at").select(zoned.dt.convert_time_zone("UTC")).to_series()


def _false(length: int) -> pl.Series:
    return same_value(False, length, pl.Boolean)


def _nulls(length: int, dtype: pl.Datetime) -> pl.Series:
    return same_value(None, length, dtype)


def _parse(text: pl.Series, time_format: str | None, *, dates: bool) -> tuple[pl.Series, pl.Series]:
    """The times that carry an offset, in UTC, and those that are local."""
    own = (chrono_format(time_format),) if time_format and (dates or _has_hour(time_format)) else ()
    utc, local = _read(text, _likely(text, (*own, *_FAST)))
    if text.null_count() == utc.null_count() + local.null_count() - len(text):
        return utc, local
    rest = text.set(utc.is_not_null() | local.is_not_null(), None)
    more_utc, more_local = _read(_plain(rest), (*own, *_SLOW, *([_ISO_DATE] if dates else [])))
    utc, local = _filled(utc, more_utc), _filled(local, more_local)
    return utc, _filled(local, _day_numbers(rest.set(more_utc.is_not_null(), None)))


def _day_numbers(text: pl.Series) -> pl.Series:
    """Times that a spreadsheet turned into its day numbers, null where there is none."""
    eaten = text.str.contains(_DAY_NUMBER)
    if not eaten.any():
        return _nulls(len(text), LOCAL)
    times = [day_number_time(one) if one else None for one in text.set(~eaten, None)]
    return pl.Series(times, dtype=LOCAL)


def chrono_format(time_format: str) -> str:
    """Return a strptime format as polars reads it, whose fraction of a second has its dot within.

    Example:
        >>> chrono_format("%H:%M:%S.%f")
        '%H:%M:%S%.f'
    """
    return time_format.replace(".%f", "%.f")


def _has_hour(time_format: str) -> bool:
    return any(part in time_format for part in ("%H", "%I", "%k", "%l", "%T", "%R", "%X", "%s"))


def _likely(text: pl.Series, formats: tuple[str, ...]) -> tuple[str, ...]:
    """The first format that reads the column's first time: most files keep to one."""
    sample = text.drop_nulls().head(1)
    for time_format in formats:
        if any(part.null_count() == 0 for part in _read(sample, (time_format,))):
            return (time_format,)
    return formats[:1]


def _read(text: pl.Series, formats: Iterable[str]) -> tuple[pl.Series, pl.Series]:
    utc, local = _nulls(len(text), UTC), _nulls(len(text), LOCAL)
    for time_format in formats:
        times = text.str.to_datetime(time_format, strict=False, time_unit="us")
        if times.dtype == UTC or time_format.endswith("Z"):
            utc = _filled(utc, times.dt.replace_time_zone("UTC"))
        else:
            local = _filled(local, times)
    return utc, local


def _plain(text: pl.Series) -> pl.Series:
    """ISO 8601 in one spelling: a blank before the hour, a dot in the seconds, no blank later."""
    return (
        text.str.replace(r"^(\d{4}-\d\d-\d\d)[Tt\s]\s*", "${1} ")
        .str.replace(r"(:\d\d),(\d)", "${1}.${2}")
        .str.replace(r"\s*(UTC|GMT|Z|z)$", "+00:00")
        .str.replace(r"\s+([+-]\d\d:?(?:\d\d)?)$", "${1}")
    )


def _filled(values: pl.Series, others: pl.Series) -> pl.Series:
    if others.null_count() == len(others):
        return values
    return (
        others
        if values.null_count() == len(values)
        else values.zip_with(values.is_not_null(), others)
    )
