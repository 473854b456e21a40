"""A condition that drifts: its moving average, and how many runs are left to its limit."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, sqrt

import numpy as np
from numpy.typing import ArrayLike, NDArray

from eol.statistics.interval import require

WEIGHT = 0.2
LEAST_RUNS = 10  # fewer values give no trend
CLEAR = 3.0  # a slope of so many standard errors is a trend


@dataclass(frozen=True, slots=True)
class EwmaTrace:
    """An exponentially weighted moving average.

    Args:
        averages: the average after each value.
        low: lower control limit (long run).
        high: upper control limit (long run).
        signals: places (from 0) whose average lies beyond a limit.
    """

    averages: tuple[float, ...]
    low: float
    high: float
    signals: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Drift:
    """Where a condition stands and where it goes.

    Args:
        level: its moving average now; None without values.
        slope: change a run over the values given; None with fewer than 10 values.
        direction: `up`, `down`, or `none` where no trend is clear.
        limit: the limit it moves toward; None where it moves toward none.
        runs_left: runs until the average meets that limit; 0 where it is beyond; None without.
    """

    level: float | None
    slope: float | None
    direction: str
    limit: float | None
    runs_left: int | None


def ewma(
    values: ArrayLike, *, target: float, sigma: float, weight: float = WEIGHT, width: float = 3.0
) -> EwmaTrace:
    """Average values with falling weights and hold them against control limits.

    Args:
        values: readings in the order of time, in any unit.
        target: where the average starts, in the same unit.
        sigma: standard deviation of one reading, in the same unit.
        weight: weight of the newest value, above 0 and up to 1.
        width: distance of the limits in standard deviations of the average.

    Returns:
        The averages, the limits and the signals. No value: no average, no signal.

    Raises:
        ValueError: weight outside its range, or sigma negative.

    Source:
        S. W. Roberts, Technometrics 1 (1959), pages 239-250; NIST/SEMATECH e-Handbook of
        Statistical Methods, section 6.3.2.4.

    Example:
        >>> trace = ewma([52.0, 47.0, 53.0], target=50, sigma=2.0539, weight=0.3)
        >>> [round(x, 2) for x in trace.averages], round(trace.high, 4)
        ([50.6, 49.52, 50.56], 52.5884)
    """
    require(0 < weight <= 1, f"the weight lies above 0 and up to 1, not {weight}")
    require(sigma >= 0, "a standard deviation cannot be negative")
    value = np.atleast_1d(np.asarray(values, dtype=float))
    averages = _averages(value, target, weight)
    half = width * sigma * sqrt(weight / (2 - weight))
    beyond = np.flatnonzero(np.abs(averages - target) > half)
    return EwmaTrace(tuple(averages.tolist()), target - half, target + half, tuple(beyond.tolist()))


def drift_to_limit(
    values: ArrayLike,
    *,
    lower: float | None = None,
    upper: float | None = None,
    weight: float = WEIGHT,
) -> Drift:
    """Tell whether a condition drifts toward a limit and how many runs are left.

    Args:
        values: readings of the condition, one a run, oldest first; the trend is that of all given.
        lower: its lower limit; None: none.
        upper: its upper limit; None: none.
        weight: weight of the newest value in the moving average.

    Returns:
        The level now, the slope by least squares (a trend from three standard errors on) and the
        runs left at that slope. Fewer than 10 values: a level and no trend.

    Raises:
        ValueError: a reading is not a number, or weight outside its range.

    Source:
        Level: Roberts 1959 as for `ewma`; slope and its standard error: N. R. Draper and H. Smith,
        "Applied Regression Analysis", third edition, section 1.4.

    Example:
        >>> drift = drift_to_limit([250 - 0.5 * run for run in range(40)], lower=220)
        >>> drift.direction, drift.limit, drift.runs_left
        ('down', 220, 25)
    """
    require(0 < weight <= 1, f"the weight lies above 0 and up to 1, not {weight}")
    value = np.atleast_1d(np.asarray(values, dtype=float))
    require(not np.isnan(value).any(), "readings must be numbers")
    if not len(value):
        return Drift(None, None, "none", None, None)
    level = float(_averages(value, float(value[0]), weight)[-1])
    if len(value) < LEAST_RUNS:
        return Drift(level, None, "none", None, None)
    slope, error = _slope(value)
    if slope == 0 or abs(slope) <= CLEAR * error:
        return Drift(level, slope, "none", None, None)
    limit = upper if slope > 0 else lower
    direction = "up" if slope > 0 else "down"
    if limit is None:
        return Drift(level, slope, direction, None, None)
    return Drift(level, slope, direction, limit, max(0, ceil((limit - level) / slope)))


def _averages(value: NDArray[np.float64], start: float, weight: float) -> NDArray[np.float64]:
    averages = np.empty(len(value))
    for place, new in enumerate(value.tolist()):
        start = weight * new + (1 - weight) * start
        averages[place] = start
    return averages


def _slope(value: NDArray[np.float64]) -> tuple[float, float]:
    """Give the least-squares slope a run and its standard error."""
    run = np.arange(len(value)) - (len(value) - 1) / 2
    spread = float(run @ run)
    slope = float(run @ value) / spread
    rest = value - value.mean() - slope * run
    return slope, sqrt(float(rest @ rest) / (len(value) - 2) / spread)
