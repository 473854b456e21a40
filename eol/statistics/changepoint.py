"""When something changed: for readings by ranks, for units with and without a defect by shares."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import xlogy
from scipy.stats import rankdata

from eol.statistics.interval import require

HALF_CHI2 = 1.920729410347062  # half the 95 % point of chi-square with 1 degree of freedom


@dataclass(frozen=True, slots=True)
class RankChange:
    """Where the level of readings changed.

    Args:
        last_before: how many readings lie before the change; None with fewer than two.
        k: Pettitt's statistic, the farthest the summed ranks stray.
        p: its p-value (approximate); 1 where nothing changes.
        direction: `up`, `down` or `none`.
    """

    last_before: int | None
    k: float
    p: float
    direction: str


@dataclass(frozen=True, slots=True)
class ShareChange:
    """Where the share of units with a defect changed.

    Args:
        last_before: how many units lie before the change; None where nothing can change.
        low: fewest units before it that the data still allow (95 %).
        high: most units before it.
        share_before: share with the defect before.
        share_after: share with the defect after.
        likelihood_ratio: twice the log likelihood gained by a change.
    """

    last_before: int | None
    low: int | None
    high: int | None
    share_before: float | None
    share_after: float | None
    likelihood_ratio: float


def pettitt(values: ArrayLike) -> RankChange:
    """Find where the level of readings changed, by ranks.

    Args:
        values: readings in the order of time, in any unit.

    Returns:
        The change and its p-value; equal readings get mean ranks.

    Raises:
        ValueError: a reading is not a number.

    Source:
        A. N. Pettitt, "A non-parametric approach to the change-point problem", Applied Statistics
        28 (1979), pages 126-135; p = 2 exp(-6 K² / (n³ + n²)).

    Example:
        >>> pettitt([1, 2, 1, 2, 1, 2, 8, 9, 8, 9, 8, 9]).last_before
        6
    """
    value = np.atleast_1d(np.asarray(values, dtype=float))
    require(not np.isnan(value).any(), "readings must be numbers")
    n = len(value)
    if n < 2:
        return RankChange(None, 0.0, 1.0, "none")
    sums = 2 * np.cumsum(rankdata(value))[:-1] - np.arange(1, n) * (n + 1)
    place = int(np.abs(sums).argmax())
    k = float(abs(sums[place]))
    p = min(1.0, 2 * exp(-6 * k * k / (n**3 + n**2)))
    direction = "none" if k == 0 else "down" if sums[place] > 0 else "up"
    return RankChange(place + 1, k, p, direction)


def change_of_share(flags: ArrayLike) -> ShareChange:
    """Find where the share of units with a defect changed, with the range the data allow.

    Args:
        flags: whether the unit has the defect, one a unit at risk, in build order.

    Returns:
        The likeliest change and the 95 % range of its profile likelihood: report the range, not the
        point. Fewer than two units, or all units alike: no change.

    Raises:
        ValueError: a flag is neither 0 nor 1.

    Source:
        D. V. Hinkley and E. A. Hinkley, "Inference about the change-point in a sequence of binomial
        variables", Biometrika 57 (1970), pages 477-488.

    Example:
        >>> change = change_of_share([0] * 40 + [1, 0, 1, 1, 0, 1])
        >>> change.last_before, change.low, change.high
        (40, 38, 40)
    """
    flag = np.atleast_1d(np.asarray(flags, dtype=float))
    require(bool(np.all((flag == 0) | (flag == 1))), "a flag is 0 or 1")
    n, total = len(flag), float(flag.sum())
    if n < 2 or total in (0, n):
        share = total / n if n else None
        return ShareChange(None, None, None, share, share, 0.0)
    before = np.arange(1, n)
    bad = np.cumsum(flag)[:-1]
    gained = _log_likelihood(bad, before) + _log_likelihood(total - bad, n - before)
    place = int(gained.argmax())
    allowed = before[gained >= gained[place] - HALF_CHI2]
    return ShareChange(
        last_before=place + 1,
        low=int(allowed[0]),
        high=int(allowed[-1]),
        share_before=float(bad[place] / before[place]),
        share_after=float((total - bad[place]) / (n - before[place])),
        likelihood_ratio=float(2 * (gained[place] - _log_likelihood(total, n))),
    )


def _log_likelihood(bad: ArrayLike, units: ArrayLike) -> NDArray[np.float64]:
    good = np.asarray(units) - np.asarray(bad)
    return np.asarray(xlogy(bad, np.asarray(bad) / units) + xlogy(good, good / units))
