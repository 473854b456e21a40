"""Counts of defects: the DPHU interval of rule 16, exact Poisson limits, and two counts compared.

Exposures are units at risk (or any other positive measure, the same for both counts).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from eol.statistics.interval import Z95, Interval, require

ZERO_COUNT_HIGH = 368.8879454  # rule 16: 100 x the exact 95 % limit of a count of zero


@dataclass(frozen=True, slots=True)
class RateRatio:
    """Two rates compared: ratio of the first to the second, its interval and the exact p-value.

    Args:
        ratio: first rate over second rate; None where the second count is 0.
        low: lower end, 0 where the first count is 0.
        high: upper end; None where nothing bounds it (second count 0).
        p: two-sided p-value of "the rates are equal".
    """

    ratio: float | None
    low: float
    high: float | None
    p: float


def dphu_interval(units: int, defects: int, squares: int) -> Interval:
    """Give defects per hundred units with the interval of rule 16.

    Args:
        units: units tested.
        defects: the sum of the units' defect counts.
        squares: the sum of the squares of the units' defect counts.

    Returns:
        100 x defects / units, with mean ± z s/√n clipped at 0. No unit: None throughout. No defect:
        0 to 368.8879454 / n. One unit with a defect: ends of None.

    Raises:
        ValueError: a number is negative, or the three cannot belong to one set of units.

    Source:
        The normal interval of a mean, D. C. Montgomery, "Introduction to Statistical Quality
        Control", chapter 4; for no defect F. Garwood, Biometrika 28 (1936), pages 437-442.

    Example:
        >>> dphu_interval(200, 0, 0).high
        1.844439727
    """
    require(min(units, defects, squares) >= 0, "units, defects and squares cannot be negative")
    require(squares >= defects, "the squares of whole counts cannot sum to less than the counts")
    require(units > 0 or defects == 0, "defects without a unit")
    if units == 0:
        return Interval(0, None, None, None)
    if defects == 0:
        return Interval(units, 0.0, 0.0, ZERO_COUNT_HIGH / units)
    mean = defects / units
    if units == 1:
        return Interval(1, 100 * mean, None, None)
    # (n Q - S²) / (n (n - 1)) in whole numbers: no cancellation, and the views can give the same.
    variance = (units * squares - defects * defects) / (units * (units - 1))
    require(variance >= 0, "the sum of squares is too small for these defects and units")
    half = Z95 * sqrt(variance / units)
    return Interval(units, 100 * mean, 100 * max(0.0, mean - half), 100 * (mean + half))


def poisson_exact(count: int, exposure: float = 1.0, *, confidence: float = 0.95) -> Interval:
    """Give a rate, count per exposure, with the exact Poisson interval.

    Args:
        count: defects seen.
        exposure: units at risk, or any other measure; 0 gives an interval of None.
        confidence: between 0 and 1, two-sided.

    Returns:
        The rate and its ends, per one of the exposure; n is the exposure.

    Raises:
        ValueError: a number is negative, or confidence outside 0..1.

    Source:
        F. Garwood, "Fiducial limits for the Poisson distribution", Biometrika 28 (1936), pages
        437-442; the chi-square form of K. Ulm, American Journal of Epidemiology 131 (1990), pages
        373-375.

    Example:
        >>> rate = poisson_exact(15, 400)
        >>> round(rate.low, 6), round(rate.high, 6)
        (0.020988, 0.061851)
    """
    from scipy.special import gammaincinv

    require(count >= 0 and exposure >= 0, "count and exposure cannot be negative")
    require(0 < confidence < 1, f"confidence must lie between 0 and 1, not {confidence}")
    if exposure == 0:
        return Interval(0, None, None, None)
    tail = (1 - confidence) / 2
    low = float(gammaincinv(count, tail)) if count else 0.0
    high = float(gammaincinv(count + 1, 1 - tail))
    return Interval(exposure, count / exposure, low / exposure, high / exposure)


def rate_ratio(
    first: tuple[int, float], second: tuple[int, float], *, confidence: float = 0.95
) -> RateRatio:
    """Compare two rates by the exact conditional test.

    Given the sum of both counts, the first is binomial.

    Args:
        first: (count, exposure) of the rate asked about; the exposure is positive.
        second: (count, exposure) of the rate compared with.
        confidence: between 0 and 1, two-sided.

    Returns:
        The ratio with its exact interval and the two-sided p-value (sum of the outcomes no likelier
        than this one). No count at all gives no ratio, 0 to no bound, p = 1.

    Raises:
        ValueError: a count is negative, an exposure not positive, or confidence outside 0..1.

    Source:
        J. Przyborowski and H. Wilenski, "Homogeneity of results in testing samples from Poisson
        series", Biometrika 31 (1940), pages 313-323; interval by Clopper and Pearson 1934. The same
        as R's poisson.test.

    Example:
        >>> after_action = rate_ratio((24, 9600), (108, 6400))
        >>> [round(x, 2) for x in (after_action.ratio, after_action.low, after_action.high)]
        [0.15, 0.09, 0.23]
    """
    from eol.statistics.helpers import binomial_p
    from eol.statistics.proportion import clopper_pearson

    (count, exposure), (count_2, exposure_2) = first, second
    require(min(count, count_2) >= 0, "counts cannot be negative")
    require(min(exposure, exposure_2) > 0, "exposures must be positive")
    both = count + count_2
    if both == 0:
        return RateRatio(None, 0.0, None, 1.0)
    share = clopper_pearson(count, both, confidence=confidence)
    scale = exposure_2 / exposure
    low, high = share.low or 0.0, share.high or 1.0
    return RateRatio(
        ratio=count / count_2 * scale if count_2 else None,
        low=low / (1 - low) * scale,
        high=high / (1 - high) * scale if count_2 else None,
        p=binomial_p(count, both, exposure / (exposure + exposure_2)),
    )


def e_test(first: tuple[int, float], second: tuple[int, float]) -> float:
    """Give the two-sided p-value of the E-test of two rates.

    With equal exposures it is sharper than the conditional test at small counts; with very
    unequal ones it can be blunter. Say which of the two is shown.

    Args:
        first: (count, exposure) of one rate; the exposure is positive.
        second: (count, exposure) of the other.

    Returns:
        The p-value of "the rates are equal"; 1 where nothing was counted.

    Raises:
        ValueError: a count is negative or an exposure not positive.

    Source:
        K. Krishnamoorthy and J. Thomson, "A more powerful test for comparing two Poisson means",
        Journal of Statistical Planning and Inference 119 (2004), pages 23-35.

    Example:
        >>> round(e_test((0, 100), (3, 100)), 6)
        0.088379
    """
    from scipy.stats import poisson_means_test

    require(min(first[0], second[0]) >= 0, "counts cannot be negative")
    require(min(first[1], second[1]) > 0, "exposures must be positive")
    if first[0] + second[0] == 0:
        return 1.0
    return float(poisson_means_test(first[0], first[1], second[0], second[1]).pvalue)
