"""How long until a unit is clear, with the units that still wait counted as what they are."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from eol.statistics.interval import Z95, require


@dataclass(frozen=True, slots=True)
class Survival:
    """Share of units that still wait, by time waited.

    Args:
        times: times at which a wait ended, ascending.
        waiting: share that waits longer than that time.
        low: lower end of its 95 % interval.
        high: upper end.
        median: time by which half are clear; None where fewer than half are known to be.
        median_low: lower end of the median's interval; None where it cannot be given.
        median_high: upper end; None where it cannot be given yet.
        ended: waits that ended.
        open: units that still wait.
    """

    times: tuple[float, ...]
    waiting: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    median: float | None
    median_low: float | None
    median_high: float | None
    ended: int
    open: int


def kaplan_meier(times: ArrayLike, ended: ArrayLike) -> Survival:
    """Estimate how long units wait, with open units censored.

    Args:
        times: time waited, one a unit, in any unit of time.
        ended: whether the wait ended at that time, one a unit; false: the unit still waits.

    Returns:
        The product-limit curve at the times at which waits ended, its log-log interval and the
        median. At equal times an open unit counts as still waiting. No unit: an empty curve.

    Raises:
        ValueError: the lists differ in length, or a time is negative or no number.

    Source:
        E. L. Kaplan and P. Meier, "Nonparametric estimation from incomplete observations", Journal
        of the American Statistical Association 53 (1958), pages 457-481; interval: J. D.
        Kalbfleisch and R. L. Prentice, "The Statistical Analysis of Failure Time Data", 1980; of
        the median: R. Brookmeyer and J. Crowley, Biometrics 38 (1982), pages 29-41.

    Example:
        >>> minutes = [22, 35, 41, 41, 60, 95, 120, 180]
        >>> kaplan_meier(minutes, [1, 1, 1, 0, 1, 1, 0, 0]).median
        60.0
    """
    time = np.atleast_1d(np.asarray(times, dtype=float))
    flag = np.atleast_1d(np.asarray(ended)).astype(bool)
    require(time.shape == flag.shape, "one time and one flag a unit")
    require(bool(np.all(time >= 0)), "a time is a number from 0 on")
    moments, ends = np.unique(time[flag], return_counts=True)
    at_risk = len(time) - np.searchsorted(np.sort(time), moments)
    waiting = np.cumprod(1 - ends / np.maximum(at_risk, 1))
    left = at_risk - ends
    # Greenwood's sum; where nobody is left the share is 0 and has no interval of its own.
    greenwood = np.cumsum(ends / (np.maximum(at_risk, 1) * np.maximum(left, 1)))
    inside = waiting > 0
    safe = np.where(inside, waiting, 0.5)
    half = Z95 * np.sqrt(greenwood) / np.abs(np.log(safe))
    low = np.where(inside, safe ** np.exp(half), 0.0)
    high = np.where(inside, safe ** np.exp(-half), 0.0)
    rows = moments.tolist()
    return Survival(
        times=tuple(rows),
        waiting=tuple(waiting.tolist()),
        low=tuple(low.tolist()),
        high=tuple(high.tolist()),
        median=_first_at_half(rows, waiting.tolist()),
        median_low=_first_at_half(rows, low.tolist()),
        median_high=_first_at_half(rows, high.tolist()),
        ended=int(flag.sum()),
        open=int((~flag).sum()),
    )


def _first_at_half(times: list[float], shares: list[float]) -> float | None:
    """Give the first time at which at most half wait (a rounding error above half is half)."""
    pairs = zip(times, shares, strict=True)
    return next((time for time, share in pairs if share <= 0.5 + 1e-12), None)
