"""Usual ranges: three-sigma and Poisson limits from settled shifts before the present one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import fmean

FEWEST_SHIFTS = 12
"""With fewer settled shifts there is no usual range, and the page says so in words."""

TAIL = 0.001
"""Chance above which a count is still put down to noise: three sigma, one side."""


@dataclass(frozen=True, slots=True)
class Usual:
    """A usual range: low and high end, its centre, and the shifts behind it."""

    low: float
    centre: float
    high: float
    shifts: int

    def holds(self, value: float) -> bool:
        """Tell whether a value lies in the range, its ends included."""
        return self.low <= value <= self.high


def proportion_limits(
    passed: Sequence[int], tested: Sequence[int], *, present: int
) -> Usual | None:
    """Return the p-chart limits of a shift from the shifts before it.

    Args:
        passed: units passed in each earlier settled shift.
        tested: units tested in each of them.
        present: units tested in the shift asked for; its own n sets the width.

    Returns:
        The limits clipped to 0..1; None with fewer than 12 shifts or without a unit.

    Source: W. A. Shewhart's p chart as in Montgomery, Introduction to Statistical Quality
        Control, "Control charts for fraction nonconforming", variable sample size.

    Example:
        >>> usual = proportion_limits([90] * 12, [100] * 12, present=100)
        >>> round(usual.low, 3), usual.centre
        (0.81, 0.9)
    """
    if len(tested) < FEWEST_SHIFTS or present <= 0 or sum(tested) == 0:
        return None
    centre = sum(passed) / sum(tested)
    half = 3 * math.sqrt(centre * (1 - centre) / present)
    return Usual(max(0.0, centre - half), centre, min(1.0, centre + half), len(tested))


def rate_limits(counts: Sequence[int], units: Sequence[int], *, present: int) -> Usual | None:
    """Return the u-chart limits of a shift, per unit, from the shifts before it.

    Args:
        counts: defects (or void tests) of each earlier settled shift.
        units: units of each of them.
        present: units of the shift asked for.

    Returns:
        The limits per unit, the lower one never under 0; None with fewer than 12 shifts.

    Source: the u chart as in Montgomery, Introduction to Statistical Quality Control,
        "Control charts for nonconformities", variable sample size.

    Example:
        >>> round(rate_limits([16] * 12, [4] * 12, present=4).high, 6)
        7.0
    """
    if len(units) < FEWEST_SHIFTS or present <= 0 or sum(units) == 0:
        return None
    centre = sum(counts) / sum(units)
    half = 3 * math.sqrt(centre / present)
    return Usual(max(0.0, centre - half), centre, centre + half, len(units))


def single_value_limits(values: Sequence[float]) -> Usual | None:
    """Return limits for single values from their moving range, in the order of the shifts.

    Args:
        values: the figure in each earlier settled shift, oldest first.

    Returns:
        Mean plus and minus 2.66 mean moving ranges; None with fewer than 12 shifts.

    Source: the individuals chart as in Montgomery, Introduction to Statistical Quality
        Control, "The Shewhart control chart for individual measurements" (3 / 1.128 = 2.66).

    Example:
        >>> single_value_limits([0.8, 0.9] * 6).centre
        0.85
    """
    if len(values) < FEWEST_SHIFTS:
        return None
    centre = round(fmean(values), 12)
    half = 2.66 * fmean(abs(b - a) for a, b in pairwise(values))
    return Usual(centre - half, centre, centre + half, len(values))


def count_range(mean: float, *, shifts: int, tail: float = TAIL) -> Usual | None:
    """Return the range in which a Poisson count with this mean usually lies.

    Args:
        mean: the count expected in the shift asked for.
        shifts: settled shifts behind the mean; fewer than 12 give None.
        tail: chance left outside at each side.

    Returns:
        The range in whole defects, low and high end included.

    Example:
        >>> usual = count_range(4.0, shifts=20)
        >>> usual.low, usual.high
        (0.0, 11.0)
    """
    if shifts < FEWEST_SHIFTS:
        return None
    low = _poisson_quantile(mean, tail)
    return Usual(float(low), mean, float(_poisson_quantile(mean, 1 - tail)), shifts)


def _poisson_quantile(mean: float, probability: float) -> int:
    """The smallest count whose cumulative chance reaches the probability."""
    chance = cumulative = math.exp(-mean)
    count = 0
    while cumulative < probability and count < 50 + 20 * mean:
        count += 1
        chance *= mean / count
        cumulative += chance
    return count
