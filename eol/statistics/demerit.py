"""Demerits: defects weighted by their severity class."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt

from eol.statistics.interval import require


@dataclass(frozen=True, slots=True)
class Demerits:
    """Weighted defects of a set of units.

    Args:
        demerits: sum of weight x count.
        per_unit: demerits over units; None without units.
        sigma_per_unit: standard deviation of `per_unit` where each class is Poisson; None without
            units.
    """

    demerits: float
    per_unit: float | None
    sigma_per_unit: float | None


def weigh_demerits(
    counts: Mapping[str, int], weights: Mapping[str, float], *, units: int
) -> Demerits:
    """Weigh defects by severity class and give demerits per unit with their standard deviation.

    Args:
        counts: defects by class.
        weights: demerits of one defect by class; a class that is counted must have one.
        units: units tested; 0 gives None per unit.

    Returns:
        Demerits, demerits per unit and the standard deviation of the latter.

    Raises:
        ValueError: a class has no weight, or a number is negative.

    Source:
        D. C. Montgomery, "Introduction to Statistical Quality Control", demerit systems: D = 100A +
        50B + 10C + D, variance of D/n = sum(w² u)/n.

    Example:
        >>> weights = {"A": 100, "B": 50, "C": 10, "D": 1}
        >>> weigh_demerits({"A": 2, "B": 5, "C": 12, "D": 40}, weights, units=200).per_unit
        3.05
    """
    missing = sorted(set(counts) - set(weights))
    require(not missing, f"severity without a weight: {', '.join(missing)}")
    require(units >= 0 and min(counts.values(), default=0) >= 0, "counts cannot be negative")
    total = float(sum(weights[severity] * count for severity, count in counts.items()))
    if units == 0:
        return Demerits(total, None, None)
    spread = sum(weights[severity] ** 2 * count for severity, count in counts.items())
    return Demerits(total, total / units, sqrt(spread) / units)
