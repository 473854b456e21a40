"""The watch after an action that worked."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np

from eol.facts.action_sides import ShiftSide, Side
from eol.facts.action_watch import recurrence

BEFORE = Side(6400, 115)


def shifts(*counts: int, units: int = 400) -> list[ShiftSide]:
    """Shifts after the action by their units with the code."""
    first = date(2026, 9, 10)
    return [
        ShiftSide((first + timedelta(days=at), "day"), Side(units, count))
        for at, count in enumerate(counts)
    ]


def test_return_is_found_within_a_few_shifts() -> None:
    """A code that comes back to its share from before is told, with the shift in which the rise began."""
    after = shifts(*[1] * 12, 7, 8, 6, 7)
    found = recurrence(BEFORE, after, expected_ratio=0.3)
    assert found is not None
    assert found.since.window[0] == date(2026, 9, 22)
    assert (found.side, found.last) == (Side(1600, 28), 0)


def test_what_goes_on_working_stays_silent() -> None:
    """Sixty quiet shifts after a good action: hardly ever a return."""
    drawn = np.random.default_rng(7).poisson(0.003 * 400, size=(40, 60))
    told = [recurrence(BEFORE, shifts(*row.tolist()), expected_ratio=0.3) for row in drawn]
    assert sum(one is not None for one in told) <= 6


def test_what_never_worked_cannot_return() -> None:
    """Without `fewer` there is nothing to come back from."""
    assert recurrence(BEFORE, shifts(*[7] * 20), expected_ratio=0.5) is None


def test_edges() -> None:
    """No unit after, no baseline, no defect before: no return and no error."""
    assert recurrence(BEFORE, [], expected_ratio=0.5) is None
    assert recurrence(Side(), shifts(1, 2), expected_ratio=0.5) is None
    assert recurrence(Side(900, 0), shifts(0, 0), expected_ratio=0.5) is None
    assert recurrence(BEFORE, shifts(0, 0, units=0), expected_ratio=0.5) is None
