"""The shifts that end with one."""

from __future__ import annotations

from datetime import date

from made_up_follow import span

from eol.facts.span import span_up_to

SHIFTS = span(5).shifts
DAY = date(2026, 9, 8)


def test_span_ends_with_the_shift() -> None:
    """All shifts up to the one asked for; without a name up to the last of the day."""
    named = span_up_to(SHIFTS, last_date=DAY, shift="2")
    assert named is not None
    assert [one.window[1] for one in named.shifts] == ["0", "1", "2"]
    whole = span_up_to(SHIFTS, last_date=DAY, shift=None)
    assert whole is not None
    assert whole.until == SHIFTS[-1].ends_at


def test_last_and_bounds() -> None:
    """The last n shifts begin where the first of them does; more than there are is all."""
    last = span(5).last(2)
    assert last.bounds["from_at"] == SHIFTS[3].starts_at
    assert last.bounds["first_date"] == DAY
    assert len(span(5).last(60).shifts) == 5


def test_no_shift_is_no_span() -> None:
    """Before the first shift of the calendar there is none."""
    assert span_up_to(SHIFTS, last_date=date(2026, 9, 7), shift="0") is None
    assert span_up_to((), last_date=DAY, shift=None) is None
