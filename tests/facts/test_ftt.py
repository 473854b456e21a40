"""First-time-through of a test over the last shifts."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from eol.facts.ftt import SHOWN_SHIFTS, ftt_series, void_counts, windows_up_to

FIRST = date(2026, 8, 3)
WATER = {"test": "water", "title": "Water test", "required": True}


def shift_row(number: int, passed: int = 380, **fields: Any) -> dict[str, Any]:
    """Return one row of `page/ftt_history`: 400 tested."""
    day = FIRST + timedelta(days=number)
    return {
        "production_date": day,
        "shift": "day",
        "starts_at": datetime(day.year, day.month, day.day, 6),
        "test": "water",
        "presented": 402,
        "tested": 400,
        "passed_first": passed,
        "ftt": passed / 400,
        "low": 0.92,
        "high": 0.97,
        "pending": 2,
        "void_runs": 3,
        "aborted_runs": 0,
        "retested": 18,
        "settled": True,
    } | fields


def key(number: int) -> tuple[date, str]:
    """Return the shift of a number."""
    return FIRST + timedelta(days=number), "day"


def test_limits_leave_the_present_shift_out() -> None:
    """However bad the present shift is, its limits come from the shifts before it."""
    before = [shift_row(number, 380 + number % 3) for number in range(20)]
    windows = [key(number) for number in range(21)]
    bad = ftt_series(WATER, [*before, shift_row(20, 300)], windows)
    good = ftt_series(WATER, [*before, shift_row(20, 381)], windows)
    assert bad.now.usual == good.now.usual
    assert (bad.now.below, good.now.below) == (True, False)


def test_unsettled_shifts_are_no_baseline() -> None:
    """A shift that is not settled makes no usual range (rule 11)."""
    before = [shift_row(number, settled=number < 11) for number in range(20)]
    series = ftt_series(WATER, [*before, shift_row(20)], [key(number) for number in range(21)])
    assert (series.limit_shifts, series.limits_known, series.now.usual) == (11, False, None)


def test_each_shift_has_the_limits_of_its_own_units() -> None:
    """A shift with a quarter of the units has wider limits."""
    history = [shift_row(number) for number in range(20)]
    history[5] |= {"tested": 100, "passed_first": 95, "ftt": 0.95}
    series = ftt_series(WATER, history, [key(number) for number in range(20)])
    small, large = series.points[5].usual, series.points[6].usual
    assert small is not None
    assert large is not None
    assert small.high - small.low > large.high - large.low


def test_shift_without_a_run_is_a_gap() -> None:
    """A test that did not run in the present shift has no FTT, and keeps its history."""
    series = ftt_series(WATER, [shift_row(0)], [key(0), key(1)])
    assert (series.now.tested, series.now.ftt, series.low) == (0, None, None)
    assert series.points[0].tested == 400


def test_only_the_last_shifts_are_shown() -> None:
    """At most thirty shifts are drawn, the present one last."""
    history = [shift_row(number) for number in range(50)]
    series = ftt_series(WATER, history, [key(number) for number in range(50)])
    assert len(series.points) == SHOWN_SHIFTS
    assert series.now.production_date == key(49)[0]


def test_windows_are_the_shifts_with_runs_before_the_present_one() -> None:
    """Later shifts and runs between shifts are no history; the present shift comes last."""
    between = shift_row(3, shift=None, starts_at=None)
    history = [shift_row(2), shift_row(0), shift_row(1), shift_row(4), between]
    assert windows_up_to(history, present=key(2), usual_shifts=60) == (key(0), key(1), key(2))
    assert windows_up_to(history, present=key(2), usual_shifts=1) == (key(1), key(2))


def test_windows_before_a_time_between_shifts() -> None:
    """What was tested between shifts is compared with the shifts of earlier dates."""
    history = [shift_row(0), shift_row(1)]
    present = (key(1)[0], None)
    assert windows_up_to(history, present=present, usual_shifts=60) == (key(0), present)


def test_void_tests_are_added_over_the_tests() -> None:
    """Void tests of a shift are those of all its tests; unsettled shifts before are left out."""
    history = [shift_row(0), shift_row(0, test="electrical"), shift_row(1, settled=False)]
    counts = void_counts([*history, shift_row(2)], [key(0), key(1), key(2)])
    assert [(count.void_runs, count.presented) for count in counts] == [(6, 804), (3, 402)]
