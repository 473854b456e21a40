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

_ANY_WEDNESDAY = date(2026, 1, 7)
_FORTNIGHT = timedelta(days=14)


def check_shifts(settings: Settings) -> Iterator[Fault]:
    """Yield each pair of shifts that overlap, and each shift that comes twice on one day, once."""
    seen: set[frozenset[int]] = set()
    number = {id(row): place for place, row in enumerate(settings.shifts)}
    for one, other, right in _clashes(settings):
        places = number[id(one.row)], number[id(other.row)]
        if frozenset(places) not in seen:
            seen.add(frozenset(places))
            # The row further down is the one last written, so the fault is told there.
            key = "ends" if places[0] > places[1] else "starts"
            yield _fault(settings.shifts[max(places)], max(places), key, right)


def _fault(row: ShiftSettings, number: int, key: str, right: str) -> Fault:
    return Fault(("shift", number, key), right, f"{getattr(row, key):%H:%M}")


def _clashes(settings: Settings) -> Iterator[tuple[WallWindow, WallWindow, str]]:
    """Pairs of windows, the earlier first, with what is wrong between them."""
    for first, last in _spans(settings.shifts):
        windows = sorted(wall_windows(settings.shifts, first, last), key=lambda one: one.starts)
        yield from _meetings(windows)
        yield from _repeats(windows, settings.plant.date_by)


def _meetings(windows: list[WallWindow]) -> Iterator[tuple[WallWindow, WallWindow, str]]:
    """Each window that starts before the latest end so far; ends do not belong to a window."""
    for number, window in enumerate(windows[1:], start=1):
        before = max(windows[:number], key=lambda earlier: earlier.ends)
        if window.starts < before.ends:
            yield before, window, _overlap(before, window)


def _spans(shifts: tuple[ShiftSettings, ...]) -> Iterator[tuple[date, date]]:
    """The first and last day of each stretch that must be looked at."""
    changes = sorted({row.valid_from for row in shifts if row.valid_from is not None})
    before = (changes or [_ANY_WEDNESDAY])[0] - _FORTNIGHT
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
