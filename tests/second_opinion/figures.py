"""Numbers with their intervals (rule 16)."""

from __future__ import annotations

import math
import statistics

from second_opinion.records import Row

Z = 1.959963984540054
ZERO_HIGH = 368.8879454

Interval = tuple[float | None, float | None]


def ratio(part: float, of: float) -> float | None:
    """A share, None where there is nothing to share."""
    return part / of if of else None


def wilson(passed: int, n: int) -> Interval:
    """The Wilson score interval of a share."""
    if n == 0:
        return None, None
    share, square = passed / n, Z * Z / n
    middle = (share + square / 2) / (1 + square)
    half = Z / (1 + square) * math.sqrt(share * (1 - share) / n + square / (4 * n))
    return max(middle - half, 0.0), min(middle + half, 1.0)


def dphu_interval(counts: list[int]) -> Interval:
    """The interval of the mean of units' defect counts, per hundred units."""
    n = len(counts)
    if n == 0:
        return None, None
    if sum(counts) == 0:
        return 0.0, ZERO_HIGH / n
    if n == 1:
        return None, None
    mean = sum(counts) / n
    half = Z * statistics.stdev(counts) / math.sqrt(n)
    return 100 * max(mean - half, 0.0), 100 * (mean + half)


def dphu(counts: list[int]) -> float | None:
    """Defects per hundred units."""
    return 100 * sum(counts) / len(counts) if counts else None


def ranked(rows: list[Row]) -> list[Row]:
    """Competition ranks by defects, shares and running shares of a group, in rank order."""
    total = sum(row["defects"] for row in rows)
    running = 0
    for row in sorted(rows, key=lambda row: (-row["defects"], row["code"])):
        running += row["defects"]
        row["rank"] = 1 + sum(other["defects"] > row["defects"] for other in rows)
        row["share"] = ratio(row["defects"], total)
        row["cumulative_share"] = ratio(running, total)
    return sorted(rows, key=lambda row: (row["rank"], row["code"]))
