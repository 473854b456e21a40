"""A baseline that was not picked for being bad: what is kept out of it, and what bounds it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from eol.facts.action_sides import ShiftSide, Side, added, baseline_of, shift_sides
from eol.facts.ftt import Window

FIRST = date(2026, 9, 1)
CALENDAR: list[Window] = [
    (FIRST + timedelta(days=day), shift) for day in range(20) for shift in ("day", "night")
]


def sides(first: int, last: int, with_code: int = 4) -> tuple[ShiftSide, ...]:
    """Shifts of 400 units from one place of the calendar up to another, the latter not in."""
    return tuple(ShiftSide(window, Side(400, with_code)) for window in CALENDAR[first:last])


def test_trigger_is_kept_out_whatever_it_had() -> None:
    """The shifts of the day it was opened, and the last before them, are no baseline."""
    found = baseline_of(sides(0, 20), sides(20, 30), CALENDAR, opened_on=FIRST + timedelta(days=9))
    assert [one.name for one in found.kept_out] == [
        "2026-09-09/night",
        "2026-09-10/day",
        "2026-09-10/night",
    ]
    assert found.used == Side(17 * 400, 17 * 4)


def test_units_between_shifts_go_with_their_day() -> None:
    """What was tested between shifts on the day of opening is kept out too."""
    between = ShiftSide((FIRST, None), Side(3, 1))
    found = baseline_of((*sides(0, 2), between), (), CALENDAR, opened_on=FIRST)
    assert between in found.kept_out
    assert found.used == Side()


@pytest.mark.parametrize("opened", [None, FIRST + timedelta(days=15)])
def test_day_of_the_cut_in_stands_in(opened: date | None) -> None:
    """Opened at no known day, or written down later: the day of the first units after it counts."""
    found = baseline_of(sides(0, 20), sides(20, 32), CALENDAR, opened_on=opened)
    assert [one.name for one in found.kept_out] == ["2026-09-10/night"]


def test_declared_days_bound_it_from_twelve_shifts_on() -> None:
    """Declared days of twelve shifts and more are the baseline."""
    days = (FIRST + timedelta(days=1), FIRST + timedelta(days=7))
    found = baseline_of(sides(0, 20), sides(20, 30), CALENDAR, opened_on=None, declared=days)
    assert found.declared_counts
    assert found.used.units == 14 * 400


def test_few_declared_days_do_not() -> None:
    """Fewer may have been picked: every shift before it serves, and the declared sum is kept to tell."""
    days = (FIRST + timedelta(days=8), None)
    found = baseline_of(sides(0, 20), sides(20, 30), CALENDAR, opened_on=None, declared=days)
    assert not found.declared_counts
    assert (found.used.units, found.declared) == (19 * 400, Side(4 * 400, 16))


def test_worst_shift_is_the_one_with_the_highest_share() -> None:
    """Of the shifts kept out the worst is told; none where none had the code."""
    bad = ShiftSide(CALENDAR[19], Side(400, 12))
    day = FIRST + timedelta(days=9)
    found = baseline_of((*sides(0, 19), bad), (), CALENDAR, opened_on=day)
    assert found.worst == bad
    assert baseline_of(sides(0, 20, 0), (), CALENDAR, opened_on=day).worst is None


def test_nothing_before_is_an_empty_baseline() -> None:
    """Without a unit on either side there is a baseline of none."""
    found = baseline_of((), (), CALENDAR, opened_on=None)
    assert (found.used, found.kept_out, found.used.share) == (Side(), (), None)


def test_shifts_come_in_the_order_of_time() -> None:
    """Rows are put in calendar order, what was tested between shifts last of its day; models are added up."""
    rows = [
        {"production_date": FIRST, "shift": shift, "units": 2, "with_code": 1}
        for shift in (None, "night", "day")
    ]
    found = shift_sides([*rows, rows[0] | {"units": 3}], CALENDAR)
    assert [one.window[1] for one in found] == ["day", "night", None]
    assert found[-1].side == Side(5, 2)
    assert added(found) == Side(9, 4)
