"""The Pareto of the last 20 shifts with honest ranks."""

from __future__ import annotations

from typing import Any

import pytest

from eol.facts.ranks import RankedCode, ranked_codes


def rows(*defects: int, test: str = "water", at_risk: int = 8000) -> list[dict[str, Any]]:
    """Rows of `pareto_window`: codes A, B, … of a test."""
    return [
        {
            "test": test,
            "code": chr(65 + at),
            "title": None,
            "defects": n,
            "at_risk": at_risk,
            "demerits": 10.0 * n,
            "rank": 1 + sum(other > n for other in defects),
        }
        for at, n in enumerate(defects)
    ]


def ends(ranked: tuple[RankedCode, ...], name: str) -> list[tuple[int, int]]:
    """The ranges of one kind of rank."""
    ranges = [getattr(code, name) for code in ranked]
    return [(one.low, one.high) for one in ranges]


def test_ranges_of_the_worked_figures() -> None:
    """Counts 18, 11, 8, 4, 2 on equal units have the ranges of the method's worked figures."""
    ranked = ranked_codes(rows(18, 11, 8, 4, 2), [])
    assert ends(ranked, "rank_range") == [(1, 2), (1, 3), (2, 4), (3, 5), (4, 5)]
    assert [code.place for code in ranked] == [1, 2, 3, 4, 5]


def test_rates_with_interval_and_shrunk() -> None:
    """The rate lies in its exact interval; the shrunk rate lies nearer to the common one."""
    first, *_, last = ranked_codes(rows(40, 10, 10, 1), [])
    assert first.low < first.per_100 < first.high
    assert first.per_100 == pytest.approx(0.5)
    assert first.shrunk is not None
    assert last.shrunk is not None
    assert first.shrunk < first.per_100
    assert last.shrunk > last.per_100


def test_ranks_by_demerits_and_minutes() -> None:
    """A rare code that weighs much, or takes long to repair, ranks first by that; without it none."""
    window = rows(30, 10)
    window[1]["demerits"] = 1000.0
    minutes = [{"test": "water", "code": "B", "minutes": 900.0}]
    ranked = ranked_codes(window, minutes)
    assert ends(ranked, "by_demerits") == [(2, 2), (1, 1)]
    assert ranked[0].by_minutes is None
    assert ranked[1].by_minutes is not None
    assert ranked[1].minutes == 900


def test_few_units_at_risk_rank_high_by_rate() -> None:
    """A code that few units can have may rank last by defects and first by rate."""
    window = rows(30, 10)
    window[1]["at_risk"] = 200
    ranked = ranked_codes(window, [])
    assert ends(ranked, "by_rate") == [(2, 2), (1, 1)]
    assert ends(ranked, "rank_range") == [(1, 1), (2, 2)]


def test_tests_are_ranked_apart_and_together() -> None:
    """Ranks within a test start anew; places run over all tests."""
    ranked = ranked_codes(rows(90, 10) + rows(50, test="electrical"), [])
    assert [(code.code, code.rank, code.place) for code in ranked] == [
        ("A", 1, 1),
        ("A", 1, 2),
        ("B", 2, 3),
    ]


def test_nothing_and_one_code() -> None:
    """No code gives nothing; one code is first for sure; no unit at risk gives rate 0 and no error."""
    assert ranked_codes([], []) == ()
    (one,) = ranked_codes(rows(3), [])
    assert (one.place_range.low, one.place_range.high) == (1, 1)  # type: ignore[union-attr]
    (none,) = ranked_codes(rows(3, at_risk=0), [])
    assert none.shrunk is None
