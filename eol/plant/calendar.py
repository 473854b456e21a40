"""The shifts of plant.toml in, the windows of real days out, in UTC (rule 3).

A shift's days are those on which it starts by the wall clock. Of the rows of one shift name those
with the newest valid_from not after that day hold; without one a row holds from ever before.
A window is half-open, [starts_at, ends_at), and as long as the clock that night makes it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo
from functools import lru_cache

from eol.plant.clock import parse_days, to_utc
from eol.plant.sections import Settings, ShiftSettings

_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class ShiftWindow:
    """One shift of one day; starts_at (inclusive) and ends_at (exclusive) are in UTC."""

    production_date: date
    shift: str
    crew: str | None
    starts_at: datetime
    ends_at: datetime
    cancelled: bool


@dataclass(frozen=True, slots=True)
class WallWindow:
    """One shift of one day by the wall clock, in times without zone, and its row of plant.toml."""

    row: ShiftSettings
    starts: datetime
    ends: datetime

    def production_date(self, date_by: str) -> date:
        """The day it belongs to: that of its end only where it crosses midnight."""
        by_end = date_by == "end" and self.row.over_midnight
        return self.ends.date() if by_end else self.starts.date()


def shift_windows(settings: Settings, first: date, last: date) -> list[ShiftWindow]:
    """Return the shifts whose production date lies from the first to the last day, both included.

    Returns:
        The windows in the order in which they start; none is cancelled, since exceptions come by
        the feed `shifts` and replace a window by its production date and shift.
    """
    plant, shifts = settings.plant, tuple(settings.shifts)
    months = _months(first - _DAY, last)
    every = (one for month in months for one in _of_month(shifts, plant.zone, plant.date_by, month))
    return [window for window in every if first <= window.production_date <= last]


def _months(first: date, last: date) -> list[date]:
    """The first days of the months from one day's to another's."""
    numbers = range(first.year * 12 + first.month - 1, last.year * 12 + last.month)
    return [date(number // 12, number % 12 + 1, 1) for number in numbers]


@lru_cache(maxsize=1024)
def _of_month(
    shifts: tuple[ShiftSettings, ...], zone: tzinfo, date_by: str, month: date
) -> tuple[ShiftWindow, ...]:
    """The shifts that start in a month; each load asks for those of all years, twice."""
    last = (month + 31 * _DAY).replace(day=1) - _DAY
    return tuple(
        ShiftWindow(
            wall.production_date(date_by),
            wall.row.name,
            wall.row.crew,
            to_utc(wall.starts, zone),
            to_utc(wall.ends, zone),
            False,
        )
        for wall in wall_windows(shifts, month, last)
    )


def wall_windows(shifts: Sequence[ShiftSettings], first: date, last: date) -> Iterator[WallWindow]:
    """Yield the shifts that start from the first to the last day, by the wall clock, in order."""
    changes = sorted({row.valid_from or date.min for row in shifts} | {date.min})
    weeks = [_week(shifts, change) for change in changes]
    for number in range((last - first).days + 1):
        day = first + number * _DAY
        yield from _day_windows(weeks[bisect_right(changes, day) - 1][day.weekday()], day)


def _week(shifts: Sequence[ShiftSettings], day: date) -> list[list[ShiftSettings]]:
    """The rows that hold on a day, by weekday, in the order of their starts."""
    rows = sorted(_rows_on(shifts, day), key=lambda row: row.starts)
    return [[row for row in rows if weekday in parse_days(row.days)] for weekday in range(7)]


def _rows_on(shifts: Sequence[ShiftSettings], day: date) -> Iterator[ShiftSettings]:
    """Of each shift name the rows with the newest valid_from not after a day."""
    newest: dict[str, date] = {}
    for row in shifts:
        since = row.valid_from or date.min
        if since <= day:
            newest[row.name] = max(since, newest.get(row.name, date.min))
    return (row for row in shifts if newest.get(row.name) == (row.valid_from or date.min))


def _day_windows(rows: Sequence[ShiftSettings], day: date) -> Iterator[WallWindow]:
    for row in rows:
        ends_on = day if row.starts < row.ends else day + _DAY
        yield WallWindow(
            row, datetime.combine(day, row.starts), datetime.combine(ends_on, row.ends)
        )
