"""Ranks with honesty: rates shrunk to their common mean, and how far each rank is certain.

A list sorted by counts of few units mostly shows luck. Beside each rate stands the shrunk one,
and beside each rank the range that 90 % of draws of all rates give it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import minimize
from scipy.special import gammaln

from eol.statistics.interval import require

DRAWS = 10_000
SEED = 1996  # fixed, so that a page made twice says the same
MOST_ALIKE = 12.0  # e^12: codes so alike that more shrinking changes nothing


@dataclass(frozen=True, slots=True)
class ShrunkRates:
    """Rates of several codes, pulled toward their common mean by how little each one knows.

    Args:
        rates: shrunk rates per unit at risk, in the order given; None where no unit is at risk.
        alpha: shape of the gamma distribution of the rates; None where none could be fitted.
        beta: its rate, in units at risk; alpha / beta is the common mean.
    """

    rates: tuple[float | None, ...]
    alpha: float | None
    beta: float | None


@dataclass(frozen=True, slots=True)
class RankRange:
    """How far a rank is certain; 1 is the highest rate.

    Args:
        low: the best rank of the range.
        high: the worst rank of the range.
        first: share of draws in which it ranks first.
    """

    low: int
    high: int
    first: float


def shrunk_rates(counts: ArrayLike, exposures: ArrayLike) -> ShrunkRates:
    """Shrink the rates of several codes toward their common gamma distribution.

    Args:
        counts: defects by code.
        exposures: units at risk by code; a code with none gets no rate.

    Returns:
        (alpha + count) / (beta + units at risk), alpha and beta of greatest likelihood. With fewer
        than two codes at risk, or no defect at all, the rates as they are.

    Raises:
        ValueError: the lists differ in length, or a number is negative.

    Source:
        D. Clayton and J. Kaldor, "Empirical Bayes estimates of age-standardized relative risks for
        use in disease mapping", Biometrics 43 (1987), pages 671-681, section 3.1.

    Example:
        >>> shrunk = shrunk_rates([0, 10, 1], [100, 100, 100])
        >>> [round(100 * rate, 1) for rate in shrunk.rates]
        [0.4, 9.3, 1.3]
    """
    count, exposure = _pairs(counts, exposures)
    known = exposure > 0
    if known.sum() < 2 or count[known].sum() == 0:
        return ShrunkRates(tuple(_rate(c, e, 0, 0) for c, e in _rows(count, exposure)), None, None)
    alpha, beta = _fit_gamma(count[known], exposure[known])
    rates = tuple(_rate(c, e, alpha, beta) for c, e in _rows(count, exposure))
    return ShrunkRates(rates, alpha, beta)


def rank_ranges(
    counts: ArrayLike,
    exposures: ArrayLike,
    *,
    weights: ArrayLike = 1.0,
    level: float = 0.90,
    seed: int = SEED,
) -> tuple[RankRange | None, ...]:
    """Give the range of ranks of each code from 10,000 draws of every code's rate.

    Args:
        counts: defects by code.
        exposures: units at risk by code; a code with none gets None.
        weights: what one defect weighs (demerits, minutes of repair), one for all or by code.
        level: share of the draws that the range holds, as many left out above as below.
        seed: of the draws.

    Returns:
        A range by code, in the order given; rank 1 has the highest weighted rate.

    Raises:
        ValueError: the lists differ in length, a number is negative, or level outside 0..1.

    Source:
        H. Goldstein and D. J. Spiegelhalter, "League tables and their limitations", Journal of the
        Royal Statistical Society A 159 (1996), pages 385-443; gamma posterior under the Jeffreys
        prior: A. Gelman and others, "Bayesian Data Analysis", third edition, section 2.8.

    Example:
        >>> ranges = rank_ranges([18, 11, 8, 4, 2, 0], [1] * 6)
        >>> [(rank.low, rank.high) for rank in ranges]
        [(1, 2), (1, 3), (2, 4), (3, 5), (4, 6), (5, 6)]
    """
    require(0 < level < 1, f"level must lie between 0 and 1, not {level}")
    count, exposure = _pairs(counts, exposures)
    weight = np.broadcast_to(np.asarray(weights, dtype=float), count.shape)
    known = np.flatnonzero(exposure > 0)
    shape = (DRAWS, len(known))
    draws = np.random.default_rng(seed).gamma(count[known] + 0.5, size=shape)
    values = draws / exposure[known] * weight[known]
    ranks = np.argsort(np.argsort(-values, axis=1, kind="stable"), axis=1) + 1
    tails = [(1 - level) / 2, (1 + level) / 2]
    ranges: list[RankRange | None] = [None] * len(count)
    for column, place in enumerate(known.tolist()):
        low, high = np.quantile(ranks[:, column], tails, method="inverted_cdf").tolist()
        ranges[place] = RankRange(low, high, float((ranks[:, column] == 1).mean()))
    return tuple(ranges)


def _pairs(
    counts: ArrayLike, exposures: ArrayLike
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    count = np.atleast_1d(np.asarray(counts, dtype=float))
    exposure = np.atleast_1d(np.asarray(exposures, dtype=float))
    require(count.shape == exposure.shape, "one count and one number of units at risk a code")
    require(bool(np.all(count >= 0) and np.all(exposure >= 0)), "counts cannot be negative")
    return count, exposure


def _rows(count: NDArray[np.float64], exposure: NDArray[np.float64]) -> list[tuple[float, float]]:
    return list(zip(count.tolist(), exposure.tolist(), strict=True))


def _rate(count: float, exposure: float, alpha: float, beta: float) -> float | None:
    return (alpha + count) / (beta + exposure) if exposure > 0 else None


def _fit_gamma(count: NDArray[np.float64], exposure: NDArray[np.float64]) -> tuple[float, float]:
    """Maximise the negative binomial likelihood over log mean and log alpha."""
    mean = count.sum() / exposure.sum()

    def loss(parameters: NDArray[np.float64]) -> float:
        alpha = np.exp(parameters[1])
        beta = alpha / (mean * np.exp(parameters[0]))
        terms = gammaln(alpha + count) - gammaln(alpha) + alpha * np.log(beta / (beta + exposure))
        return -float(np.sum(terms - count * np.log(beta + exposure)))

    bounds = [(-3.0, 3.0), (-7.0, MOST_ALIKE)]
    best = minimize(loss, np.zeros(2), method="L-BFGS-B", bounds=bounds, tol=1e-12).x
    alpha = float(np.exp(best[1]))
    return alpha, alpha / float(mean * np.exp(best[0]))
