"""Bays beside their neighbours over the last shifts, within shift and model."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from eol.facts.bay_signals import BaySignal, bay_signals

DAYS = [(date(2026, 9, 1) + timedelta(days=day), "day") for day in range(8)]


def rows(
    name: str, failed: int, tested: int, model: str = "WAG", **more: Any
) -> list[dict[str, Any]]:
    """A bay of the water test with as many fails in each of eight shifts."""
    return [
        {
            "production_date": day,
            "shift": shift,
            "test": "water",
            "station": "W",
            "bay": name,
            "model": model,
            "tested": tested,
            "failed": failed,
        }
        | more
        for day, shift in DAYS
    ]


def told(
    *units: list[dict[str, Any]], codes: list[dict[str, Any]] | None = None
) -> list[BaySignal]:
    """The signals of some bays."""
    return list(bay_signals([row for part in units for row in part], codes or [], DAYS))


def test_equal_bays_are_silent() -> None:
    """Bays that fail alike are not named; nor is a bay without neighbours."""
    assert told(rows("A", 4, 130), rows("B", 4, 130), rows("C", 5, 130)) == []
    assert told(rows("A", 40, 130)) == []
    assert told() == []


def test_blind_bay_is_too_good() -> None:
    """A bay that finds a third of what its neighbours find is named as too good, and they are not."""
    (one,) = told(rows("A", 4, 130), rows("B", 1, 130), rows("C", 4, 130))
    assert (one.name, one.kind, one.code) == ("W B", "fewer", None)
    assert (one.failed, one.tested, one.others_failed, one.others_tested) == (8, 1040, 64, 2080)
    assert one.ratio is not None
    assert one.ratio < 0.3


def test_bad_bay_does_not_make_its_neighbours_too_good() -> None:
    """Beside a bay that fails far too many the rest are compared among themselves."""
    (one,) = told(rows("A", 4, 130), rows("B", 20, 130), rows("C", 4, 130))
    assert (one.name, one.kind) == ("W B", "more")


def test_harder_units_are_no_fault_of_the_bay() -> None:
    """A bay that gets the model that leaks is compared on that model alone."""
    hard = [*rows("A", 10, 100, "VAN"), *rows("A", 0, 20, "WAG")]
    easy = [*rows("B", 2, 20, "VAN"), *rows("B", 0, 100, "WAG")]
    assert told(hard, easy) == []


def test_code_of_one_bay() -> None:
    """A code that comes from one bay is named with it, where the bay as a whole hides it."""
    units = [*rows("A", 12, 100), *rows("B", 12, 100), *rows("C", 12, 100)]
    codes = [
        row
        for bay, n in (("A", 1), ("B", 6), ("C", 1))
        for row in rows(bay, 0, 0, code="X", units=n)
    ]
    (one,) = told(units, codes=codes)
    assert (one.name, one.code, one.kind, one.failed) == ("W B", "X", "more", 48)


def test_a_handful_with_a_code_is_not_compared() -> None:
    """Under five units with a code no bay is said to find it."""
    units = [*rows("A", 1, 100), *rows("B", 1, 100)]
    codes = rows("A", 0, 0, code="X", units=4)[:1]
    assert told(units, codes=codes) == []


def test_older_shifts_do_not_count() -> None:
    """Only the last eight shifts of the page are looked at."""
    old = [row | {"production_date": date(2026, 8, 1)} for row in rows("A", 60, 130)]
    assert told(old, rows("A", 4, 130), rows("B", 4, 130)) == []


def test_all_failed_and_none() -> None:
    """A test that fails every unit, or none, is an answer and no error."""
    assert told(rows("A", 100, 100), rows("B", 100, 100)) == []
    assert told(rows("A", 0, 100), rows("B", 0, 100)) == []
