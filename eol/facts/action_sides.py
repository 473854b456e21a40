"""The units before and after an action, and a baseline that was not picked for being bad.

What made somebody act was a shift with many defects; held against that shift alone every action
seems to work. So the shifts of the day on which the action was opened, and the last one before
them, are kept out of the baseline, whatever they had.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from eol.facts.ftt import Window
from eol.facts.reader import Row, total

LEAST_SHIFTS = 12
"""Shifts that declared baseline days must hold: fewer may have been picked, and say what one wants."""


@dataclass(frozen=True, slots=True)
class Side:
    """Production units at risk at their first counted run, and those of them with the code."""

    units: int = 0
    with_code: int = 0

    @property
    def share(self) -> float | None:
        """Share of units with the code; null without units."""
        return self.with_code / self.units if self.units else None

    @property
    def counts(self) -> tuple[int, int]:
        """Units with the code and units, as the statistics take them."""
        return self.with_code, self.units


@dataclass(frozen=True, slots=True)
class ShiftSide:
    """One side of an action in one shift of testing."""

    window: Window
    side: Side

    @property
    def name(self) -> str:
        """The shift as commands name it: `2026-09-07/night`."""
        return f"{self.window[0].isoformat()}/{self.window[1] or 'between'}"


@dataclass(frozen=True, slots=True)
class Baseline:
    """What an action is held against.

    Attributes:
        used: the units before it that count.
        windows: the shifts in which these were tested.
        kept_out: the shifts that are kept out because one of them may have triggered the action.
        declared: the units of the declared days, the kept out shifts among them; None where no days
            were declared.
        declared_counts: whether the declared days bound `used`; they do from 12 shifts on.
    """

    used: Side
    windows: frozenset[Window]
    kept_out: tuple[ShiftSide, ...] = ()
    declared: Side | None = None
    declared_counts: bool = False

    @property
    def worst(self) -> ShiftSide | None:
        """Of the shifts kept out the one with the highest share; None where none had the code."""
        told = [one for one in self.kept_out if one.side.with_code]
        return max(told, key=lambda one: one.side.share or 0.0, default=None)


def added(parts: Iterable[ShiftSide]) -> Side:
    """Return several shifts as one side."""
    every = list(parts)
    return Side(total(p.side.units for p in every), total(p.side.with_code for p in every))


def shift_sides(rows: Iterable[Row], calendar: Sequence[Window]) -> tuple[ShiftSide, ...]:
    """Return rows of `action/side` of one action and side by shift, in the order of time.

    Args:
        rows: the rows.
        calendar: the shifts, oldest first; what was tested between shifts comes last of its day.
    """
    place = {window: at for at, window in enumerate(calendar)}
    of_models: dict[Window, list[Row]] = {}
    for row in rows:
        of_models.setdefault((row["production_date"], row["shift"]), []).append(row)
    sides = [
        ShiftSide(window, Side(total(r["units"] for r in of), total(r["with_code"] for r in of)))
        for window, of in of_models.items()
    ]
    last = len(calendar)
    return tuple(sorted(sides, key=lambda one: (one.window[0], place.get(one.window, last))))


def baseline_of(
    before: Sequence[ShiftSide],
    after: Sequence[ShiftSide],
    calendar: Sequence[Window],
    *,
    opened_on: date | None,
    declared: tuple[date | None, date | None] = (None, None),
) -> Baseline:
    """Return what an action is held against.

    Args:
        before: units before it, back to the last action on the same code, by shift.
        after: units after it, by shift, oldest first.
        calendar: the shifts, oldest first.
        opened_on: when it was opened; the day of its first units after where not known or later.
        declared: first and last declared day of the baseline, each may be missing.
    """
    days = [day for day in (opened_on, *(one.window[0] for one in after[:1])) if day]
    trigger = _trigger(calendar, min(days)) if days else frozenset()
    kept_out = tuple(one for one in before if one.window in trigger)
    rest = [one for one in before if one.window not in trigger]
    if declared == (None, None):
        return Baseline(added(rest), _windows(rest), kept_out)
    within = [one for one in rest if _within(one.window[0], declared)]
    counts = len(within) >= LEAST_SHIFTS
    used = within if counts else rest
    every = added(one for one in before if _within(one.window[0], declared))
    return Baseline(added(used), _windows(used), kept_out, every, declared_counts=counts)


def _trigger(calendar: Sequence[Window], day: date) -> frozenset[Window]:
    """The shifts of a day and the last before them; between shifts counts to its day."""
    earlier = [window for window in calendar if window[0] < day]
    return frozenset(
        [(day, None), *earlier[-1:], *(window for window in calendar if window[0] == day)]
    )


def _windows(parts: Iterable[ShiftSide]) -> frozenset[Window]:
    return frozenset(one.window for one in parts)


def _within(day: date, declared: tuple[date | None, date | None]) -> bool:
    first, last = declared
    return (first is None or first <= day) and (last is None or day <= last)
