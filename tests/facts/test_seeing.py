"""Can the tests see: reference checks, double looks, and the demo's blind bay and false bench."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date

import pytest
from made_up_follow import looks

from eol.demo.build import DemoResult
from eol.facts.queue import queue_facts
from eol.facts.seeing import Seeing, checked_bays, double_looks, seeing_facts
from eol.facts.span import calendar, span_up_to
from eol.store.connect import open_copy

DAY = date(2026, 9, 8)
Ask = Callable[[date, str], Seeing]


def check(shift: str, *, good: bool, bay: str = "B") -> dict[str, object]:
    """A row of `seeing/check`."""
    place = {"test": "water", "station": "W", "bay": bay}
    return place | {"production_date": DAY, "shift": shift, "good": good}


def test_checks_bound_what_a_bay_finds() -> None:
    """20 of 20 checks good: it finds at least 86 % (one-sided); the bay that missed one comes first."""
    rows = [check("day", good=True, bay="A") for _ in range(20)]
    missed = [check("day", good=True), check("night", good=False), check("night", good=False)]
    first, second = checked_bays(rows + missed, (DAY, "night"))
    assert (first.name, first.missed, first.in_a_row) == ("W bay B", 2, 2)
    assert second.low == pytest.approx(0.05 ** (1 / 20))


def test_old_misses_are_no_news() -> None:
    """A check missed in an earlier shift counts in the bound, not as missed now."""
    (found,) = checked_bays([check("day", good=False), check("night", good=True)], (DAY, "night"))
    assert (found.missed, found.in_a_row, found.good) == (0, 0, 1)
    assert checked_bays([], (DAY, "night")) == ()


def test_double_looks_need_units_and_a_sure_difference() -> None:
    """Kappa surely under 0.6 is told; good agreement, few units and one verdict throughout are not."""
    told = [looks(5, 9, 8, 10), looks(20, 1, 1, 20), looks(1, 2, 2, 1), looks(0, 0, 0, 30)]
    assert [one.disagree for one in double_looks(told)] == [True, False, False, False]


def test_no_shift_sees_nothing() -> None:
    """Without a shift nothing is known."""
    assert seeing_facts(None, None) == Seeing()  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def ask(demo_plant: DemoResult) -> Iterator[Ask]:
    """What the tests of a shift of the demo could see."""
    with open_copy(demo_plant.folder) as copy:
        shifts = calendar(copy)
        yield lambda day, name: seeing_facts(copy, span_up_to(shifts, last_date=day, shift=name))


def test_blind_bay_is_seen_in_its_first_shift(ask: Ask) -> None:
    """S2: the reference unit is missed, and the pressure told four days before its passes are void."""
    seeing = ask(date(2026, 9, 7), "day")
    assert [(one.name, one.missed) for one in seeing.checks if one.missed] == [("W bay B", 1)]
    (drift,) = seeing.drifts
    assert (drift.bay, drift.name, drift.beyond) == ("B", "pressure_kpa", False)
    assert 225 < drift.level < 231 < 249 < drift.usual


def test_quiet_shift_sees(ask: Ask) -> None:
    """Before the filter clogs no check is missed, nothing drifts and no bench is false."""
    seeing = ask(date(2026, 9, 4), "night")
    assert (seeing.drifts, seeing.false_fails) == ((), ())
    assert not any(one.missed for one in seeing.checks)


def test_false_bench(ask: Ask) -> None:
    """S5: of the charge port fails of E2-2 some 80 % pass elsewhere without a repair; no other is named."""
    (found,) = ask(date(2026, 9, 18), "day").false_fails
    assert (found.name, found.code) == ("E2-2", "EL-CHARGE")
    assert found.low < 0.8 < found.high
    assert found.others_elsewhere <= 2


def test_queue_of_the_demo(demo_plant: DemoResult) -> None:
    """Arrivals and repairs go together, half are clear in hours, and what waits is censored."""
    with open_copy(demo_plant.folder) as copy:
        span = span_up_to(calendar(copy), last_date=date(2026, 9, 18), shift="day")
        queue = queue_facts(copy, span, ())
        assert queue_facts(copy, None, ()) is None
    assert queue is not None
    assert queue.cleared == pytest.approx(queue.arrivals, rel=0.1)
    assert 1 < (queue.waits.median or 0) < 8
    assert queue.waits.open > 0
