"""The Pareto of the last 20 shifts with honest ranks: intervals, shrunk rates, and how sure each rank is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from eol.facts.reader import Row, whole
from eol.statistics.ranks import RankRange, rank_ranges, shrunk_rates
from eol.statistics.rate import poisson_exact


@dataclass(frozen=True, slots=True)
class RankedCode:
    """One code over the last 20 shifts.

    `per_100` is its rate per hundred units at risk (rule 10) with its exact interval; `shrunk` the
    same pulled toward the test's other codes. `rank` is its rank by defects within its test,
    `place` over all tests; each range holds 90 % of the draws. `by_rate` is the range by rate
    within its test, `by_demerits` and `by_minutes` (of repair) over all tests; null without any.
    """

    test: str
    code: str
    title: str
    defects: int
    at_risk: int
    per_100: float
    low: float
    high: float
    shrunk: float | None
    place: int
    place_range: RankRange | None
    rank: int
    rank_range: RankRange | None
    by_rate: RankRange | None
    by_demerits: RankRange | None
    by_minutes: RankRange | None
    demerits: float
    minutes: float | None


def ranked_codes(window: Sequence[Row], minutes: Sequence[Row]) -> tuple[RankedCode, ...]:
    """Rank the codes of the last 20 shifts, most defects first.

    Args:
        window: the shift's rows of `pareto_window`.
        minutes: rows of `page/repair_minutes`.
    """
    rows = sorted(window, key=lambda row: (-row["defects"], row["code"], row["test"]))
    if not rows:
        return ()
    spent = {(row["test"], row["code"]): float(row["minutes"] or 0) for row in minutes}
    defects = [whole(row["defects"]) for row in rows]
    demerits = [float(row["demerits"] or 0) for row in rows]
    spent = {(row["test"], row["code"]): float(row["minutes"] or 0) for row in minutes}
    repaired = [spent.get((row["test"], row["code"]), 0.0) for row in rows]
    places = rank_ranges(defects, [1] * len(rows))
    by_demerits, by_minutes = _weighed(defects, demerits), _weighed(defects, repaired)
    within = _within_tests(rows)
    return tuple(
        RankedCode(
            test=row["test"],
            code=row["code"],
            title=row["title"] or "",
            defects=defects[at],
            at_risk=whole(row["at_risk"]),
            **_rate(defects[at], whole(row["at_risk"])),
            **within[row["test"], row["code"]],
            place=1 + sum(other > defects[at] for other in defects),
            place_range=places[at],
            rank=whole(row["rank"]),
            by_demerits=by_demerits[at] if demerits[at] else None,
            by_minutes=by_minutes[at] if repaired[at] else None,
            demerits=demerits[at],
            minutes=repaired[at] or None,
        )
        for at, row in enumerate(rows)
    )


def _within_tests(rows: Sequence[Row]) -> dict[tuple[str, str], dict[str, Any]]:
    """Shrunk rates and ranges of ranks of each test's codes among themselves."""
    found: dict[tuple[str, str], dict[str, Any]] = {}
    for test in sorted({row["test"] for row in rows}):
        of_test = [row for row in rows if row["test"] == test]
        defects = [whole(row["defects"]) for row in of_test]
        at_risk = [whole(row["at_risk"]) for row in of_test]
        shrunk = shrunk_rates(defects, at_risk).rates
        ranks, by_rate = rank_ranges(defects, [1] * len(of_test)), rank_ranges(defects, at_risk)
        for at, row in enumerate(of_test):
            rate = shrunk[at]
            found[test, row["code"]] = {
                "shrunk": None if rate is None else 100 * rate,
                "rank_range": ranks[at],
                "by_rate": by_rate[at],
            }
    return found


def _weighed(defects: Sequence[int], weights: Sequence[float]) -> tuple[RankRange | None, ...]:
    """Ranks where each defect weighs what those of its code weigh on average."""
    mean = [weight / max(1, n) for weight, n in zip(weights, defects, strict=True)]
    return rank_ranges(defects, [1] * len(defects), weights=mean)


def _rate(defects: int, at_risk: int) -> dict[str, Any]:
    interval = poisson_exact(defects, max(1, at_risk))
    ends = {"per_100": interval.value, "low": interval.low, "high": interval.high}
    return {name: 100 * (end or 0.0) for name, end in ends.items()}
