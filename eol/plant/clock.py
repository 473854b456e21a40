"""Words for days and times of day in, sets of weekdays, times and UTC instants out (rule 3).

A boundary on the plant's wall clock is one instant, whatever the clocks do that night. In the hour
that comes twice it is the first pass; in the hour that never was it is the instant of the jump.
Both keep the order of the wall clock, so windows that do not overlap there do not overlap in UTC.
"""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time, timedelta, timezone, tzinfo
from zoneinfo import ZoneInfo, available_timezones

from eol.plant.nearest import nearest

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_NO_OFFSET = timedelta()
_OFFSET = re.compile(r"([+-])(\d{2}):(\d{2})")
_TIME_OF_DAY = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}))?")


def parse_days(text: str) -> frozenset[int]:
    """Read days such as "mon-fri", "sat", "mon,wed,fri", "fri-mon", "all" or "none".

    Returns:
        The weekdays, Monday 0 to Sunday 6; empty for "none" (a shift that is no longer worked).

    Raises:
        ValueError: a word is no weekday.

    Example:
        >>> sorted(parse_days("fri-sun, tue"))
        [1, 4, 5, 6]
    """
    words = text.strip().lower()
    if words in ("all", "none"):
        return frozenset(range(7) if words == "all" else ())
    return frozenset(day for part in words.split(",") for day in _day_range(part))


def parse_time_of_day(text: str) -> time:
    """Read a time of day such as "06:00" or "22:15:30"; "24:00" is midnight.

    Raises:
        ValueError: it is none.

    Example:
        >>> parse_time_of_day("14:30")
        datetime.time(14, 30)
    """
    match = _TIME_OF_DAY.fullmatch(text.strip())
    if match is None:
        raise ValueError('must be a time of day such as "06:00"')
    hour, minute, second = (int(part or 0) for part in match.groups())
    if (hour, minute, second) == (24, 0, 0):
        return time(0)
    if hour > 23 or minute > 59 or second > 59:
        raise ValueError('must be a time of day between "00:00" and "24:00"')
    return time(hour, minute, second)


def time_zone(name: str) -> tzinfo:
    """Return the zone of an IANA name such as Europe/Berlin, or of an offset such as +01:00.

    Raises:
        ValueError: there is no such zone; the message names the nearest.
    """
    offset = _OFFSET.fullmatch(name)
    if offset is None:
        return _named_zone(name)
    sign, hours, minutes = offset.groups()
    size = timedelta(hours=int(hours), minutes=int(minutes))
    if size >= timedelta(hours=24) or int(minutes) > 59:
        raise ValueError('must be an offset such as "+01:00"')
    return timezone(-size if sign == "-" else size)


def to_utc(wall: datetime, zone: tzinfo) -> datetime:
    """Return the one instant of a wall clock time, also where clocks change.

    Args:
        wall: a time without zone, as the wall clock of the plant shows it.
        zone: the zone of that clock.

    Returns:
        The instant in UTC: the first pass of a time that comes twice; for a time that never was,
        the instant at which the clocks were put forward over it.

    Example:
        >>> to_utc(datetime(2026, 3, 29, 2, 30), time_zone("Europe/Berlin")).isoformat()
        '2026-03-29T01:00:00+00:00'
    """
    first = wall.replace(fold=0) if wall.fold else wall
    before = zone.utcoffset(first) or _NO_OFFSET
    after = zone.utcoffset(first.replace(fold=1)) or _NO_OFFSET
    # Only in an hour that is skipped does the later reading have the larger offset (PEP 495).
    if before < after:
        return _jump(wall.replace(tzinfo=UTC) - after, wall.replace(tzinfo=UTC) - before, zone)
    return (first - before).replace(tzinfo=UTC)


def midnight(day: date, zone: tzinfo) -> datetime:
    """Return the instant at which a day begins on the wall clock, in UTC."""
    return to_utc(datetime.combine(day, time(0)), zone)


def moment_to_utc(moment: datetime, zone: tzinfo) -> datetime:
    """Return the instant of a time of plant.toml: by its own offset, else by the wall clock."""
    return to_utc(moment, zone) if moment.tzinfo is None else moment.astimezone(UTC)


def _day_range(part: str) -> list[int]:
    """The weekdays of one word, "sat" or "fri-mon"; a range may run over Sunday."""
    ends = [_weekday(word.strip()) for word in part.split("-")]
    if len(ends) > 2:
        raise ValueError('must be days such as "mon-fri", "sat", "mon,wed,fri", "all" or "none"')
    return [(ends[0] + step) % 7 for step in range((ends[-1] - ends[0]) % 7 + 1)]


def _weekday(word: str) -> int:
    if word not in WEEKDAYS:
        raise ValueError(
            f"'{word}' is no weekday; "
            'write days such as "mon-fri", "sat", "mon,wed,fri", "all" or "none"'
        )
    return WEEKDAYS.index(word)


def _named_zone(name: str) -> ZoneInfo:
    """The zone of an IANA name; a folder of zones, such as Europe, is none."""
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        near = nearest(name, sorted(available_timezones()))
        hint = f"the nearest right one is {near}" if near else "write a name such as Europe/Berlin"
        raise ValueError(f"is no time zone; {hint}") from None


def _jump(low: datetime, high: datetime, zone: tzinfo) -> datetime:
    """The instant between two at which the offset changes, to the second, by bisection."""
    old = low.astimezone(zone).utcoffset()
    while high - low > timedelta(seconds=1):
        middle = low + (high - low) // 2
        if middle.astimezone(zone).utcoffset() == old:
            low = middle
        else:
            high = middle
    return high.replace(microsecond=0)
