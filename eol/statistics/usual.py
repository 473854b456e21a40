"""The usual range that pages show: Laney's limits, and exact ones where few defects are expected.

Limits never get narrower than chance alone has them: a baseline of quiet shifts is no promise.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import betaln, gammaln, xlog1py, xlogy

from eol.statistics.helpers import clean_series
from eol.statistics.limits import Limits, p_limits, u_limits

# Below nine expected defects three sigma reach below zero and the upper tail is far too heavy.
SMALL_COUNT = 9.0
TAIL = 0.0013498980316300933  # beyond three sigma of a normal figure, one side


def usual_share(counts: ArrayLike, sizes: ArrayLike, *, size: int) -> Limits:
    """Give the usual range of a share of units (FTT) for a shift of a given size.

    Args:
        counts: units that have it, one number a baseline shift, in the order of time; the present
            shift is left out.
        sizes: units tested in the same shifts; shifts with 0 units are left out.
        size: units tested in the shift asked about.

    Returns:
        p′ limits with sigma z at least 1. Where fewer than nine such units (or nine others) are
        expected: the counts that a beta-binomial with the same spread exceeds in 0.135 % a side
        (method `exact`). None with fewer than 12 shifts or size 0.

    Raises:
        ValueError: the lists differ in length, or a count lies outside 0..size.

    Source:
        Laney 2002 as in `p_limits`; the exact limits are those of the predictive distribution of A.
        Gelman and others, "Bayesian Data Analysis", third edition, section 2.4, with a Jeffreys
        prior and its variance widened by sigma z squared.

    Example:
        >>> usual_share([0] * 20, [400] * 20, size=400).high
        0.0025
    """
    limits = p_limits(counts, sizes, size=size, prime=True)
    if limits.center is None or limits.method == "none":
        return limits
    if size * min(limits.center, 1 - limits.center) >= SMALL_COUNT:
        return _at_least_chance(limits, p_limits(counts, sizes, size=size))
    count, n = clean_series(counts, sizes)
    share, total = (count.sum() + 0.5) / (n.sum() + 1), n.sum()
    spread = max(1.0, limits.sigma_z or 1.0)
    log_pmf = _beta_binomial(size, share, spread**2 - 1 + (size - 1) / (total + 2))
    return _exact(limits, log_pmf, size)


def usual_rate(counts: ArrayLike, exposures: ArrayLike, *, exposure: float) -> Limits:
    """Give the usual range of defects per unit for a shift with a given number of units.

    Args:
        counts: defects, one number a baseline shift, in the order of time; the present shift is
            left out.
        exposures: units tested (or at risk) in the same shifts; shifts with 0 are left out.
        exposure: units of the shift asked about.

    Returns:
        u′ limits with sigma z at least 1. Where fewer than nine defects are expected: the counts
        that a negative binomial with the same spread exceeds in 0.135 % a side (method `exact`).
        None with fewer than 12 shifts or exposure 0.

    Raises:
        ValueError: the lists differ in length, or a number is negative.

    Source:
        Laney 2002 as in `u_limits`; the exact limits are those of the predictive distribution of A.
        Gelman and others, "Bayesian Data Analysis", third edition, section 2.6, with a Jeffreys
        prior and its variance widened by sigma z squared.

    Example:
        >>> usual_rate([0] * 20, [400] * 20, exposure=400).high
        0.0025
    """
    limits = u_limits(counts, exposures, exposure=exposure, prime=True)
    if limits.center is None or limits.method == "none":
        return limits
    if exposure * limits.center >= SMALL_COUNT:
        return _at_least_chance(limits, u_limits(counts, exposures, exposure=exposure))
    count, n = clean_series(counts, exposures)
    mean = exposure * (count.sum() + 0.5) / n.sum()
    spread = max(1.0, limits.sigma_z or 1.0)
    log_pmf = _negative_binomial(mean, spread**2 - 1 + exposure / n.sum())
    return _exact(limits, log_pmf, exposure)


def _at_least_chance(prime: Limits, plain: Limits) -> Limits:
    """Take the wider of both: sigma z below 1 is mostly luck of the moving ranges."""
    wide = prime if (prime.sigma_z or 0) >= 1 else plain
    return Limits(prime.shifts, prime.center, prime.sigma_z, wide.low, wide.high, prime.method)


def _exact(limits: Limits, log_pmf: NDArray[np.float64], size: float) -> Limits:
    """Find the counts that lie within both tails and turn them into a figure per unit."""
    up_to = np.cumsum(np.exp(log_pmf))
    low = int(np.searchsorted(up_to, TAIL, side="right"))
    high = int(np.searchsorted(up_to, 1 - TAIL, side="left"))
    high = min(high, len(up_to) - 1)
    return Limits(limits.shifts, limits.center, limits.sigma_z, low / size, high / size, "exact")


def _beta_binomial(size: int, share: float, excess: float) -> NDArray[np.float64]:
    """Give log probabilities of 0..size; the variance is (1 + excess) times the binomial one."""
    k = np.arange(size + 1)
    log_ways = gammaln(size + 1) - gammaln(k + 1) - gammaln(size - k + 1)
    if size == 1 or excess <= 0:
        return np.asarray(log_ways + xlogy(k, share) + xlog1py(size - k, -share))
    rho = min(0.99, excess / (size - 1))
    a, b = share * (1 - rho) / rho, (1 - share) * (1 - rho) / rho
    return np.asarray(log_ways + betaln(k + a, size - k + b) - betaln(a, b))


def _negative_binomial(mean: float, excess: float) -> NDArray[np.float64]:
    """Give log probabilities of 0..far enough; the variance is (1 + excess) times the mean."""
    top = int(mean + 20 * (1 + excess) + 10 * np.sqrt(mean * (1 + excess)))
    k, shape = np.arange(top + 1), mean / excess
    log_ways = gammaln(k + shape) - gammaln(shape) - gammaln(k + 1)
    return np.asarray(log_ways - shape * np.log1p(excess) + k * np.log(excess / (1 + excess)))
