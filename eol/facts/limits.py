"""Usual ranges of the page: what the settled shifts before the present one lead one to expect."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import fmean

from eol.statistics.limits import LEAST_SHIFTS, MOVING_RANGE_TO_SIGMA, Limits
from eol.statistics.usual import usual_rate, usual_share


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

    def times(self, factor: float) -> Usual:
        """Return the range in another measure: per hundred units, or in counts."""
        return Usual(self.low * factor, self.centre * factor, self.high * factor, self.shifts)


def share_range(passed: Sequence[int], tested: Sequence[int], *, present: int) -> Usual | None:
    """Return the usual range of a share of units.

    Args:
        passed: units that passed in each settled shift before, oldest first.
        tested: units tested in each of them.
        present: units of the shift asked for; its own number sets the width.

    Returns:
        Laney's p′ limits as in `eol.statistics.usual`; None with fewer than 12 shifts.
    """
    return _usual(usual_share(passed, tested, size=present))


def rate_range(counts: Sequence[int], units: Sequence[int], *, present: int) -> Usual | None:
    """Return the usual range of defects, or void tests, per unit.

    Args:
        counts: how many in each settled shift before, oldest first.
        units: units of each of them.
        present: units of the shift asked for.

    Returns:
        Laney's u′ limits as in `eol.statistics.usual`; None with fewer than 12 shifts.
    """
    return _usual(usual_rate(counts, units, exposure=present))


def value_range(values: Sequence[float]) -> Usual | None:
    """Return the usual range of a figure that is no share and no count, such as RTY.

    Args:
        values: the figure in each settled shift before, oldest first.

    Returns:
        Mean and three sigma by the moving range; None with fewer than 12 shifts.

    Source: D. C. Montgomery, "Introduction to Statistical Quality Control", the Shewhart chart
        for individual measurements.

    Example:
        >>> value_range([0.75, 0.8125] * 6).centre
        0.78125
    """
    if len(values) < LEAST_SHIFTS:
        return None
    centre = fmean(values)
    half = 3 * fmean(abs(b - a) for a, b in pairwise(values)) / MOVING_RANGE_TO_SIGMA
    return Usual(centre - half, centre, centre + half, len(values))


def _usual(limits: Limits) -> Usual | None:
    if limits.low is None or limits.high is None or limits.center is None:
        return None
    return Usual(limits.low, limits.center, limits.high, limits.shifts)
