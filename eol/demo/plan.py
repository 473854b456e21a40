"""The calendar of the invented plant: 20 production days of two shifts, times as whole seconds.

A second counts from the first day's local midnight. Europe/Berlin keeps summer time (UTC+2) all
through the record, so local time and UTC differ by one constant.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

FIRST_DAY = date(2026, 8, 31)
PRODUCTION_DAYS = 20
UNITS_PER_SHIFT = 400
MINUTE = 60
HOUR = 3_600
DAY = 86_400
MIDNIGHT_UTC = datetime(2026, 8, 30, 22, 0, tzinfo=UTC)
"""Second 0: the first day's midnight in Berlin."""

_HOURS = {"day": (6 * HOUR, 14 * HOUR + 30 * MINUTE), "night": (18 * HOUR, 26 * HOUR + 30 * MINUTE)}
_CREWS = ("amber", "violet")


@dataclass(frozen=True, slots=True)
class Shift:
    """One shift of the record.

    Attributes:
        number: place in the record, from 0.
        day: production day, from 1.
        starts: first second of it.
        ends: first second after it.
    """

    number: int
    day: int
    production_date: date
    name: str
    crew: str
    starts: int
    ends: int


def _shift(number: int) -> Shift:
    day, half = divmod(number, 2)
    week, weekday = divmod(day, 5)
    name = ("day", "night")[half]
    production_date = FIRST_DAY + timedelta(days=7 * week + weekday)
    midnight = (7 * week + weekday) * DAY
    starts, ends = (midnight + second for second in _HOURS[name])
    # The crews change places every week, so that a crew is not a time of day.
    crew = _CREWS[(week + half + 1) % 2]
    return Shift(number, day + 1, production_date, name, crew, starts, ends)


SHIFTS = tuple(_shift(number) for number in range(2 * PRODUCTION_DAYS))
"""All shifts in order."""

RECORD_ENDS = SHIFTS[-1].ends
"""Nothing happens from this second on."""

_STARTS = [shift.starts for shift in SHIFTS]


def shift_of(day: int, name: str) -> Shift:
    """Return a shift by its production day, from 1, and its name."""
    return SHIFTS[2 * (day - 1) + ("day", "night").index(name)]


def shift_at(second: int) -> Shift | None:
    """Return the shift that holds a second, None between shifts."""
    number = bisect_right(_STARTS, second) - 1
    if number < 0 or second >= SHIFTS[number].ends:
        return None
    return SHIFTS[number]


def first_start(second: int, length: int, *, crew: str | None = None) -> int | None:
    """Return when work that may not cross a shift's end can start, the earliest from a second on.

    Args:
        second: from when it could start.
        length: how many seconds it takes; it ends inside the shift.
        crew: the crew that must do it, None for any.

    Returns:
        A second, None where the record ends before.
    """
    number = max(bisect_right(_STARTS, second) - 1, 0)
    for shift in SHIFTS[number:]:
        start = max(second, shift.starts)
        if start + length < shift.ends and crew in (None, shift.crew):
            return start
    return None


def working_second(shift: Shift, worked: int) -> int:
    """Return the second at which that much shift time has passed since a shift's start."""
    length = shift.ends - shift.starts
    shifts, rest = divmod(worked, length)
    return SHIFTS[shift.number + shifts].starts + rest


def repair_time(second: int) -> int:
    """Return when repair is next at work: always but from Saturday 06:00 to Monday 06:00."""
    in_week = second % (7 * DAY)
    closes, opens = 5 * DAY + 6 * HOUR, 7 * DAY + 6 * HOUR
    if in_week < 6 * HOUR:
        return second - in_week + 6 * HOUR
    return second - in_week + opens if in_week >= closes else second


def moment(second: int) -> datetime:
    """Return a second of the record as UTC."""
    return MIDNIGHT_UTC + timedelta(seconds=second)
