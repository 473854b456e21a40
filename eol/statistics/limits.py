"""Control limits of p, u and c charts, and Laney's p′ and u′: what a shift usually gives.

The baseline is the shifts before the one asked about; the caller leaves the present one out.
A value on a limit is inside. With fewer than twelve shifts there are no limits.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import ArrayLike, NDArray

from eol.statistics.helpers import clean_series
from eol.statistics.interval import require

LEAST_SHIFTS = 12
MOVING_RANGE_TO_SIGMA = 1.128  # d2 of two values: a mean moving range over it is a sigma


@dataclass(frozen=True, slots=True)
class Limits:
    """What is usual for a figure; None stands for what the history cannot give.

    Args:
        shifts: shifts with units in the baseline.
        center: the figure over the whole baseline.
        sigma_z: how many times wider shifts spread than chance alone; None where unused or unknown.
        low: lower limit.
        high: upper limit.
        method: `p`, `p′`, `u`, `u′`, `c`, `exact`, or `none` where there are no limits.
    """

    shifts: int
    center: float | None
    sigma_z: float | None
    low: float | None
    high: float | None
    method: str

    def place(self, value: float | None) -> str:
        """Tell where a figure lies: `above`, `below`, `inside`, or `unknown` without limits."""
        if value is None or self.low is None or self.high is None:
            return "unknown"
        if value > self.high:
            return "above"
        return "below" if value < self.low else "inside"


def p_limits(counts: ArrayLike, sizes: ArrayLike, *, size: float, prime: bool = False) -> Limits:
    """Give three-sigma limits of a share of units (p chart, or Laney's p′ chart).

    Args:
        counts: units that have it, one number a baseline shift, in the order of time.
        sizes: units tested in the same shifts; shifts with 0 units are left out.
        size: units tested in the shift asked about.
        prime: widen or narrow the limits by the spread between the shifts (p′).

    Returns:
        Limits of the share, clipped to 0..1; none with fewer than 12 shifts or size 0.

    Raises:
        ValueError: the lists differ in length, or a count lies outside 0..size.

    Source:
        p: D. C. Montgomery, "Introduction to Statistical Quality Control", chapter 7.2; p′: D. B.
        Laney, "Improved control charts for attributes", Quality Engineering 14 (2002), pages
        531-537.

    Example:
        >>> limits = p_limits([5] * 6 + [15] * 6, [50] * 12, size=50)
        >>> round(limits.low, 4), round(limits.high, 4)
        (0.0303, 0.3697)
    """
    count, n = clean_series(counts, sizes)
    require(bool(np.all(count <= n)), "a shift cannot have more such units than units tested")
    if len(n) < LEAST_SHIFTS or size <= 0:
        return _no_limits(count, n)
    center = float(count.sum() / n.sum())
    variance = center * (1 - center)
    spread = sigma_z(count / n, center, np.sqrt(variance / n)) if prime else None
    half = 3 * (1.0 if spread is None else spread) * sqrt(variance / size)
    low, high = max(0.0, center - half), min(1.0, center + half)
    return Limits(len(n), center, spread, low, high, "p′" if prime else "p")


def u_limits(
    counts: ArrayLike, exposures: ArrayLike, *, exposure: float, prime: bool = False
) -> Limits:
    """Give three-sigma limits of defects per unit (u chart, or Laney's u′ chart).

    Args:
        counts: defects, one number a baseline shift, in the order of time.
        exposures: units tested (or at risk) in the same shifts; shifts with 0 are left out.
        exposure: units of the shift asked about.
        prime: widen or narrow the limits by the spread between the shifts (u′).

    Returns:
        Limits of the defects per unit, clipped at 0; none with fewer than 12 shifts or exposure 0.

    Raises:
        ValueError: the lists differ in length, or a number is negative.

    Source:
        u: D. C. Montgomery, "Introduction to Statistical Quality Control", chapter 7.3; u′: D. B.
        Laney, "Improved control charts for attributes", Quality Engineering 14 (2002), pages
        531-537.

    Example:
        >>> u_limits([4] * 12, [2] * 12, exposure=2).high
        5.0
    """
    count, n = clean_series(counts, exposures)
    if len(n) < LEAST_SHIFTS or exposure <= 0:
        return _no_limits(count, n)
    center = float(count.sum() / n.sum())
    spread = sigma_z(count / n, center, np.sqrt(center / n)) if prime else None
    half = 3 * (1.0 if spread is None else spread) * sqrt(center / exposure)
    low, high = max(0.0, center - half), center + half
    return Limits(len(n), center, spread, low, high, "u′" if prime else "u")


def c_limits(counts: ArrayLike) -> Limits:
    """Give three-sigma limits of a count over equal exposures (c chart).

    Args:
        counts: defects, one number a baseline shift.

    Returns:
        Limits of the count, clipped at 0; none with fewer than 12 shifts.

    Raises:
        ValueError: a count is negative.

    Source:
        NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.3.1.

    Example:
        >>> limits = c_limits([16] * 12)
        >>> limits.low, limits.high
        (4.0, 28.0)
    """
    count, ones = clean_series(counts, np.ones_like(np.asarray(counts, dtype=float)))
    limits = u_limits(count, ones, exposure=1)
    if limits.method == "none":
        return limits
    return Limits(limits.shifts, limits.center, None, limits.low, limits.high, "c")


def sigma_z(
    values: NDArray[np.float64], center: float, sigmas: NDArray[np.float64]
) -> float | None:
    """Give Laney's sigma of the standardised shifts: mean moving range over 1.128.

    Args:
        values: the figure, one number a shift, in the order of time.
        center: the figure over all shifts.
        sigmas: standard deviation of each by chance alone, above 0 unless the center is at an end.

    Returns:
        1 where shifts spread as chance has it; None with fewer than two shifts or no spread at all.

    Source:
        D. B. Laney, "Improved control charts for attributes", Quality Engineering 14 (2002).

    Example:
        >>> round(sigma_z(np.array([1.0, 2.128, 1.0]), 1.4, np.ones(3)), 6)
        1.0
    """
    if len(values) < 2 or not np.all(sigmas > 0):
        return None
    z = (values - center) / sigmas
    return float(np.abs(np.diff(z)).mean() / MOVING_RANGE_TO_SIGMA)


def _no_limits(count: NDArray[np.float64], exposure: NDArray[np.float64]) -> Limits:
    """Give the center alone: too few shifts for limits, or no unit to compare."""
    center = float(count.sum() / exposure.sum()) if len(exposure) else None
    return Limits(len(exposure), center, None, None, None, "none")
