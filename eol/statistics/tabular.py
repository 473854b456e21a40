"""Two-sided tabular CUSUM of measured values: a condition that creeps up or down."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import ndtr

from eol.statistics.interval import require

GAUSS_POINTS = 60


@dataclass(frozen=True, slots=True)
class TwoSidedCusum:
    """Both sums after each value.

    Args:
        high: the sum of what exceeds target + k.
        low: the sum of what falls short of target - k.
        first_signal: place (from 0) at which a sum first exceeded h; None where neither did.
        direction: `up`, `down`, or `none`.
    """

    high: tuple[float, ...]
    low: tuple[float, ...]
    first_signal: int | None
    direction: str


def tabular_cusum(values: ArrayLike, *, target: float, k: float, h: float) -> TwoSidedCusum:
    """Run a two-sided tabular CUSUM over values, to its end whether or not it signals.

    Args:
        values: measured numbers in the order of time, in any unit.
        target: what they should be, in the same unit.
        k: allowance, in the same unit (half the shift to be found).
        h: a sum above it signals, in the same unit.

    Returns:
        Both sums and the first signal. No value: an empty result without signal.

    Raises:
        ValueError: k is negative or h not positive.

    Source:
        NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.3; E. S. Page, Biometrika 41
        (1954), pages 100-115.

    Example:
        >>> tabular_cusum([10.0, 12.0, 13.0], target=10, k=0.5, h=3).high
        (0.0, 1.5, 4.0)
    """
    require(k >= 0 and h > 0, "k cannot be negative and h must be positive")
    high: list[float] = []
    low: list[float] = []
    up = down = 0.0
    for value in np.atleast_1d(np.asarray(values, dtype=float)).tolist():
        up = max(0.0, up + value - target - k)
        down = max(0.0, down + target - k - value)
        high.append(up)
        low.append(down)
    places = [i for i, sums in enumerate(zip(high, low, strict=True)) if max(sums) > h]
    if not places:
        return TwoSidedCusum(tuple(high), tuple(low), None, "none")
    direction = "up" if high[places[0]] > h else "down"
    return TwoSidedCusum(tuple(high), tuple(low), places[0], direction)


def tabular_run_length(shift: float, *, k: float, h: float) -> float:
    """Give the mean number of values until a two-sided CUSUM signals.

    Args:
        shift: how far the mean lies from the target, in standard deviations.
        k: allowance in standard deviations.
        h: threshold in standard deviations.

    Returns:
        The average run length of normal values, started at 0.

    Raises:
        ValueError: k is negative or h not positive.

    Source:
        D. C. Montgomery, "Introduction to Statistical Quality Control", section 9.1, equation 9.6
        (both sides joined) and Table 9.3; Page's integral equation by Gauss's points.

    Example:
        >>> round(tabular_run_length(0, k=0.5, h=5), 1)
        465.4
    """
    require(k >= 0 and h > 0, "k cannot be negative and h must be positive")
    up, down = (_one_sided(side * shift, k, h) for side in (1, -1))
    return 1 / (1 / up + 1 / down)


def _one_sided(shift: float, k: float, h: float) -> float:
    points, weights = np.polynomial.legendre.leggauss(GAUSS_POINTS)
    s, w = (points + 1) * h / 2, weights * h / 2
    starts = np.append(s, 0.0)
    density = np.exp(-((s[None, :] + k - starts[:, None] - shift) ** 2) / 2) / np.sqrt(2 * np.pi)
    back = ndtr(k - starts - shift)[:, None]
    moves = np.hstack([density * w, back])
    size = GAUSS_POINTS + 1
    return float(np.linalg.solve(np.eye(size) - moves, np.ones(size))[-1])
