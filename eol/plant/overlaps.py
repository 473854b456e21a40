"""The shifts of plant.toml in, those that overlap or come twice on one day out (rule 3).

Looked at is a week before the first dated change and one after each, by the wall clock, with the
days around it, so that a shift over midnight meets the next day's and the next calendar's shifts.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from eol.plant.calendar import WallWindow, wall_windows
from eol.plant.clock import WEEKDAYS
from eol.plant.faults import Fault
from eol.plant.sections import Settings, ShiftSettings

_FORTNIGHT = timedelta(days=14)


def check_shifts(settings: Settings) -> Iterator[Fault]:
    """Yield each pair of shifts that overlap, and each shift that comes twice on one day, once."""
    seen: set[tuple[int, int]] = set()
    index = {id(row): number for number, row in enumerate(settings.shifts)}
    for one, other, right in _clashes(settings):
        pair = (index[id(one.row)], index[id(other.row)])
        if pair not in seen and pair[::-1] not in seen:
            seen.add(pair)
            yield Fault(("shift", max(pair)), right, settings.shifts[max(pair)].name)


def _clashes(settings: Settings) -> Iterator[tuple[WallWindow, WallWindow, str]]:
    for first, last in _spans(settings.shifts):
        windows = sorted(wall_windows(settings.shifts, first, last), key=lambda one: one.starts)
        longest = windows[0] if windows else None
        for one in windows[1:]:
            if longest is not None and one.starts < longest.ends:
                yield longest, one, _overlap(longest, one)
            longest = max(longest, one, key=lambda window: window.ends)
        yield from _repeats(windows, settings.plant.date_by)


def _spans(shifts: tuple[ShiftSettings, ...]) -> Iterator[tuple[date, date]]:
    """The first and last day of each stretch that must be looked at."""
    changes = sorted({row.valid_from for row in shifts if row.valid_from is not None})
    before = (changes or [date(2026, 1, 1)])[0] - _FORTNIGHT
    for change in (before, *changes):
        yield change - timedelta(days=2), change + timedelta(days=8)


def _repeats(
    windows: list[WallWindow], date_by: str
) -> Iterator[tuple[WallWindow, WallWindow, str]]:
    """A shift is known by its production date and name, so it can come once a day."""
    known: dict[tuple[date, str], WallWindow] = {}
    for window in windows:
        key = (window.production_date(date_by), window.row.name)
        if key in known:
            yield known[key], window, _twice(window, key[0])
        known[key] = window


def _overlap(one: WallWindow, other: WallWindow) -> str:
    minutes = (min(one.ends, other.ends) - other.starts) / timedelta(minutes=1)
    return (
        f"{_words(other)} overlaps {_words(one)} by {minutes:g} minutes; "
        "one shift must end before the next starts"
    )


def _twice(window: WallWindow, day: date) -> str:
    return (
        f"shift {window.row.name} comes twice on {WEEKDAYS[day.weekday()]}; "
        "give one of them another name or other days"
    )


def _words(window: WallWindow) -> str:
    day = WEEKDAYS[window.starts.weekday()]
    return f"{window.row.name} ({day} {window.starts:%H:%M}-{window.ends:%H:%M})"
