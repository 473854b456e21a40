"""Shares of units: Wilson's score interval (rule 16), the exact interval, differences.

Beside them what n units without a failure prove.
"""

from __future__ import annotations

from math import sqrt

from eol.statistics.interval import Interval, quantile, require


def wilson(successes: int, n: int, *, confidence: float = 0.95) -> Interval:
    """Give a share of units with Wilson's score interval, the interval of every FTT (rule 16).

    Args:
        successes: units that have it, 0 to n.
        n: units looked at; 0 gives an interval of None.
        confidence: between 0 and 1.

    Returns:
        The share and its ends, clipped to 0..1.

    Raises:
        ValueError: successes lie outside 0..n, or confidence outside 0..1.

    Source:
        E. B. Wilson, "Probable inference, the law of succession, and statistical inference",
        Journal of the American Statistical Association 22 (1927), pages 209-212; the form of R. G.
        Newcombe, Statistics in Medicine 17 (1998), pages 857-872, method 3.

    Example:
        >>> share = wilson(81, 263)
        >>> round(share.low, 4), round(share.high, 4)
        (0.2553, 0.3662)
    """
    _check_share(successes, n)
    z = quantile(confidence)
    if n == 0:
        return Interval(0, None, None, None)
    share = successes / n
    scale = 1 + z * z / n
    middle = (share + z * z / (2 * n)) / scale
    half = z / scale * sqrt(share * (1 - share) / n + z * z / (4 * n * n))
    # At 0 and n the ends are exactly 0 and 1; the formula leaves a rounding error there.
    low = 0.0 if successes == 0 else max(0.0, middle - half)
    high = 1.0 if successes == n else min(1.0, middle + half)
    return Interval(n, share, low, high)


def clopper_pearson(successes: int, n: int, *, confidence: float = 0.95) -> Interval:
    """Give a share of units with the exact binomial interval, which never covers less than it says.

    Args:
        successes: units that have it, 0 to n.
        n: units looked at; 0 gives an interval of None.
        confidence: between 0 and 1, two-sided; 0.90 gives the one-sided 95 % bounds.

    Returns:
        The share and its ends.

    Raises:
        ValueError: successes lie outside 0..n, or confidence outside 0..1.

    Source:
        C. J. Clopper and E. S. Pearson, "The use of confidence or fiducial limits illustrated in
        the case of the binomial", Biometrika 26 (1934), pages 404-413; the beta form of Newcombe
        1998, method 5.

    Example:
        >>> share = clopper_pearson(0, 20)
        >>> share.low, round(share.high, 4)
        (0.0, 0.1684)
    """
    from scipy.special import betaincinv

    _check_share(successes, n)
    require(0 < confidence < 1, f"confidence must lie between 0 and 1, not {confidence}")
    if n == 0:
        return Interval(0, None, None, None)
    tail = (1 - confidence) / 2
    failures = n - successes
    low = float(betaincinv(successes, failures + 1, tail)) if successes else 0.0
    high = float(betaincinv(successes + 1, failures, 1 - tail)) if failures else 1.0
    return Interval(n, successes / n, low, high)


def newcombe_difference(
    first: tuple[int, int], second: tuple[int, int], *, confidence: float = 0.95
) -> Interval:
    """Give the difference of two shares, first minus second, with the hybrid score interval.

    Args:
        first: (successes, units) of the first group.
        second: (successes, units) of the second group; a group without units gives an interval of
            None.
        confidence: between 0 and 1.

    Returns:
        The difference and its ends, within -1..1; n is the units of both groups.

    Raises:
        ValueError: successes lie outside 0..units, or confidence outside 0..1.

    Source:
        R. G. Newcombe, "Interval estimation for the difference between independent proportions",
        Statistics in Medicine 17 (1998), pages 873-890, method 10.

    Example:
        >>> change = newcombe_difference((56, 70), (48, 80))
        >>> round(change.low, 4), round(change.high, 4)
        (0.0524, 0.3339)
    """
    one = wilson(*first, confidence=confidence)
    two = wilson(*second, confidence=confidence)
    if one.value is None or two.value is None:
        return Interval(one.n + two.n, None, None, None)
    difference = one.value - two.value
    low = difference - _length(one.value, one.low, two.value, two.high)
    high = difference + _length(one.value, one.high, two.value, two.low)
    return Interval(one.n + two.n, difference, max(-1.0, low), min(1.0, high))


def highest_share_without_failure(n: int, *, confidence: float = 0.95) -> float:
    """Give the highest share of bad units that n units without a bad one still allow (one-sided).

    Args:
        n: units looked at, none of them bad; 0 gives 1, for nothing is known.
        confidence: between 0 and 1.

    Returns:
        1 - (1 - confidence)^(1/n), near to three over n ("rule of three") from some 30 units on.

    Raises:
        ValueError: n is negative, or confidence outside 0..1.

    Source:
        J. A. Hanley and A. Lippman-Hand, "If nothing goes wrong, is everything all right?", Journal
        of the American Medical Association 249 (1983), pages 1743-1745.

    Example:
        >>> round(highest_share_without_failure(1500), 6)
        0.001995
    """
    require(n >= 0, f"units cannot be negative: {n}")
    require(0 < confidence < 1, f"confidence must lie between 0 and 1, not {confidence}")
    return 1.0 if n == 0 else float(1 - (1 - confidence) ** (1 / n))


def _check_share(successes: int, n: int) -> None:
    require(n >= 0, f"units cannot be negative: {n}")
    require(0 <= successes <= n, f"{successes} of {n} units is no share")


def _length(one: float, one_end: float | None, two: float, two_end: float | None) -> float:
    """Join the distances from two shares to their ends, as legs of a right angle."""
    return sqrt((one - (one_end or 0.0)) ** 2 + (two - (two_end or 0.0)) ** 2)
