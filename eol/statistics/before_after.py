"""Before and after with regression to the mean taken out: the empirical-Bayes method of Hauer.

A code that was acted on because it looked bad will look better anyway. What it would have shown
without the action is foretold from its own count and from codes like it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from eol.statistics.interval import Z95, require


@dataclass(frozen=True, slots=True)
class ExpectedCount:
    """The count to expect of an entity, from its own count and its like.

    Args:
        value: expected count.
        sigma: its standard deviation.
        weight: weight of its like, 0 to 1; the own count has the rest.
    """

    value: float
    sigma: float
    weight: float


@dataclass(frozen=True, slots=True)
class BeforeAfter:
    """An action's effect with regression to the mean taken out.

    Args:
        ratio: index of effectiveness: defects after over defects foretold; None without a forecast.
        low: lower end of its interval, clipped at 0.
        high: upper end.
        foretold: defects foretold for the time after, had nothing been done.
        weight: weight of the codes like it in the forecast.
    """

    ratio: float | None
    low: float | None
    high: float | None
    foretold: float
    weight: float


def expected_count(count: int, *, mean: float, variance: float) -> ExpectedCount:
    """Weigh an own count against the mean of its like.

    Args:
        count: defects seen.
        mean: mean count of its like over the same units, above 0.
        variance: variance of the true counts among its like; 0 where all are the same.

    Returns:
        The expected count, its standard deviation and the weight mean / (mean + variance).

    Raises:
        ValueError: count or variance negative, or mean not positive.

    Source:
        E. Hauer, "Observational Before-After Studies in Road Safety", 1997, equations 11.2 and
        11.3; E. Hauer and others, Transportation Research Record 1784 (2002), pages 126-131.

    Example:
        >>> found = expected_count(12, mean=4.34, variance=5.10)
        >>> round(found.value / 1.8, 2), round(found.sigma / 1.8, 2)
        (4.71, 1.19)
    """
    require(count >= 0 and variance >= 0, "count and variance cannot be negative")
    require(mean > 0, "the mean of the like must be positive")
    weight = mean / (mean + variance)
    value = weight * mean + (1 - weight) * count
    return ExpectedCount(value, sqrt((1 - weight) * value), weight)


def before_after(
    after: tuple[int, int],
    before: tuple[int, int],
    *,
    mean_rate: float,
    rate_variance: float,
) -> BeforeAfter:
    """Give an action's effect by the empirical-Bayes before-after method.

    Args:
        after: (defects, units at risk) since the action.
        before: (defects, units at risk) of the baseline.
        mean_rate: mean defects per unit at risk of the codes like it (alpha / beta of
            `shrunk_rates`), above 0.
        rate_variance: variance of their rates (alpha / beta²).

    Returns:
        The index of effectiveness with its 95 % interval. No unit on a side: None.

    Raises:
        ValueError: a number is negative, or the mean rate not positive.

    Source:
        E. Hauer, "Observational Before-After Studies in Road Safety", 1997, the four steps of
        chapter 6 (equations 6.1 to 6.4) with the forecast of chapter 11.

    Example:
        >>> found = before_after((24, 9600), (108, 6400), mean_rate=0.005, rate_variance=2.5e-5)
        >>> [round(x, 2) for x in (found.ratio, found.low, found.high)]
        [0.15, 0.08, 0.22]
    """
    require(min(*after, *before) >= 0, "defects and units cannot be negative")
    require(mean_rate > 0, "the mean of the like must be positive")
    if not before[1] or not after[1]:
        return BeforeAfter(None, None, None, 0.0, 1.0)
    like = expected_count(
        before[0], mean=mean_rate * before[1], variance=rate_variance * before[1] ** 2
    )
    scale = after[1] / before[1]
    foretold = scale * like.value
    spread = (scale * like.sigma / foretold) ** 2
    ratio = after[0] / foretold / (1 + spread)
    # A count of 0 after says less than "no variance": it is given that of a count of one.
    sigma = max(after[0], 1) / foretold * sqrt(1 / max(after[0], 1) + spread) / (1 + spread)
    low, high = max(0.0, ratio - Z95 * sigma), ratio + Z95 * sigma
    return BeforeAfter(ratio, low, high, foretold, like.weight)
