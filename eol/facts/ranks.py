"""The Pareto of the last 20 shifts with honest ranks: intervals, shrunk rates, and how sure each rank is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from eol.facts.reader import Row, whole
from eol.statistics.ranks import RankRange, rank_ranges, shrunk_rates
from eol.statistics.rate import poisson_exact


@dataclass(frozen=True, slots=True)
class RankedCode:
    """One code over the last 20 shifts.

    `per_100` is its rate per hundred units at risk (rule 10) with its exact interval; `shrunk` the
    same pulled toward the test's other codes. `place` is its rank by defects over all tests,
    `rank` within its test; each range holds 90 % of the draws. `by_demerits`, `by_minutes` and
    `by_rate` are ranges within its test; null without demerits, minutes or units.
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
    overall = rank_ranges([row["defects"] for row in rows], [1] * len(rows))
    within: dict[tuple[str, str], RankedCode] = {}
    for test in sorted({row["test"] for row in rows}):
        of_test = [(row, overall[at]) for at, row in enumerate(rows) if row["test"] == test]
        for code in _of_test(of_test, spent, rows):
            within[code.test, code.code] = code
    return tuple(within[row["test"], row["code"]] for row in rows)


def _of_test(
    rows: Sequence[tuple[Row, RankRange | None]],
    spent: dict[tuple[str, str], float],
    every: Sequence[Row],
) -> list[RankedCode]:
    """Rank the codes of one test; ranks by defects, demerits and minutes are per tested unit."""
    of_test = [row for row, _ in rows]
    defects = [whole(row["defects"]) for row in of_test]
    at_risk = [whole(row["at_risk"]) for row in of_test]
    ones = [1] * len(rows)
    minutes = [spent.get((row["test"], row["code"]), 0.0) for row in of_test]
    demerits = [float(row["demerits"] or 0) for row in of_test]
    shrunk = shrunk_rates(defects, at_risk).rates
    by_defects, by_rate = rank_ranges(defects, ones), rank_ranges(defects, at_risk)
    by_demerits, by_minutes = _weighed(defects, demerits), _weighed(defects, minutes)
    return [
        RankedCode(
            test=row["test"],
            code=row["code"],
            title=row["title"] or "",
            defects=defects[at],
            at_risk=at_risk[at],
            **_rate(defects[at], at_risk[at]),
            shrunk=_hundred(shrunk[at]),
            place=1 + sum(other["defects"] > row["defects"] for other in every),
            place_range=overall,
            rank=whole(row["rank"]),
            rank_range=by_defects[at],
            by_rate=by_rate[at],
            by_demerits=by_demerits[at] if demerits[at] else None,
            by_minutes=by_minutes[at] if minutes[at] else None,
            demerits=demerits[at],
            minutes=minutes[at] or None,
        )
        for at, (row, overall) in enumerate(rows)
    ]


def _weighed(defects: Sequence[int], weights: Sequence[float]) -> tuple[RankRange | None, ...]:
    """Ranks where each defect weighs what those of its code weigh on average."""
    mean = [weight / max(1, n) for weight, n in zip(weights, defects, strict=True)]
    return rank_ranges(defects, [1] * len(defects), weights=mean)


def _rate(defects: int, at_risk: int) -> dict[str, float]:
    interval = poisson_exact(defects, max(1, at_risk))
    ends = {"per_100": interval.value, "low": interval.low, "high": interval.high}
    return {name: 100 * (end or 0.0) for name, end in ends.items()}


def _hundred(rate: float | None) -> float | None:
    return None if rate is None else 100 * rate
