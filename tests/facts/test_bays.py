"""Bays beside each other."""

from __future__ import annotations

from typing import Any

import pytest

from eol.facts.bays import bay_facts
from eol.statistics.proportion import wilson

TITLES = {"electrical": "Electrical test", "water": "Water test"}


def bay(
    name: str, passed: int, tested: int, *, test: str = "water", void: int = 0
) -> dict[str, Any]:
    """Return one row of `page/bays`."""
    return {
        "test": test,
        "station": "W1",
        "bay": name,
        "presented": tested + void,
        "tested": tested,
        "passed_first": passed,
        "void_runs": void,
    }


def test_bay_that_passes_fewer_is_named() -> None:
    """A bay far under its test's others differs; too good counts as much as too bad."""
    rows = [bay("A", 131, 137), bay("B", 105, 136), bay("C", 136, 136)]
    bays = {each.name: each for each in bay_facts(rows, TITLES)}
    assert bays["W1 B"].differs == "fewer"
    assert bays["W1 C"].differs == "more"
    assert bays["W1 A"].differs is None


def test_one_failed_unit_is_no_signal() -> None:
    """A bay that failed its only unit does not differ: luck alone does that."""
    bays = bay_facts([bay("A", 131, 137), bay("B", 0, 1)], TITLES)
    assert [each.differs for each in bays] == [None, None]


def test_interval_is_wilson_and_stays_out_with_many_void_runs() -> None:
    """The interval is rule 16's; with over 5 % void runs it would promise too much."""
    few, many = bay_facts([bay("A", 90, 100, void=5), bay("B", 90, 100, void=6)], TITLES)
    expected = wilson(90, 100)
    assert (few.low, few.high) == (pytest.approx(expected.low), pytest.approx(expected.high))
    assert (many.low, many.high) == (None, None)


def test_bay_without_neighbours_is_not_compared() -> None:
    """Where a test runs in one bay there is nothing to compare it with."""
    (alone,) = bay_facts([bay("A", 50, 100)], TITLES)
    assert (alone.others_ftt, alone.differs) == (None, None)


def test_mostly_void_bay() -> None:
    """A bay with half of its runs void could hardly see."""
    void, rest = bay_facts([bay("A", 1, 1, void=130), bay("B", 90, 100, void=2)], TITLES)
    assert (void.mostly_void, rest.mostly_void) == (True, False)


def test_tests_come_in_the_order_of_the_plant() -> None:
    """Bays stand by the plant's order of tests, then by name."""
    rows = [bay("A", 9, 10), bay("B", 9, 10, test="electrical"), bay("A", 9, 10, test="electrical")]
    assert [each.title[:5] + each.name for each in bay_facts(rows, TITLES)] == [
        "ElectW1 A",
        "ElectW1 B",
        "WaterW1 A",
    ]
