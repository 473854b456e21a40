"""Do two looks at the same unit agree: kappa of evaluators, McNemar for test and retest."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import ArrayLike

from eol.statistics.helpers import binomial_p, chi2_p
from eol.statistics.interval import Z95, require


@dataclass(frozen=True, slots=True)
class Agreement:
    """Agreement beyond chance.

    Args:
        kappa: 1 is perfect, 0 what chance gives; None where chance alone agrees always.
        low: lower end of its 95 % interval; None where not given.
        high: upper end.
        observed: share of looks that agree; None without units.
        expected: share that would by chance; None without units.
        n: units looked at.
    """

    kappa: float | None
    low: float | None
    high: float | None
    observed: float | None
    expected: float | None
    n: int


@dataclass(frozen=True, slots=True)
class PairedChange:
    """Two looks at the same units.

    Args:
        chi2: McNemar's statistic without correction.
        chi2_corrected: with the continuity correction.
        p: p-value of the corrected one; 1 where no unit changed.
        p_exact: exact binomial p-value, to be preferred below 25 changes.
    """

    chi2: float
    chi2_corrected: float
    p: float
    p_exact: float


def cohen_kappa(table: ArrayLike) -> Agreement:
    """Give the agreement of two evaluators who looked at the same units.

    Args:
        table: counts, shape (k, k): rows the first evaluator's verdict, columns the second's.

    Returns:
        Cohen's kappa with its large-sample interval. No unit, or one verdict throughout: None.

    Raises:
        ValueError: the table is not square or has negative counts.

    Source:
        J. Cohen, Educational and Psychological Measurement 20 (1960), pages 37-46; interval: J. L.
        Fleiss, J. Cohen and B. S. Everitt, Psychological Bulletin 72 (1969), pages 323-327.

    Example:
        >>> round(cohen_kappa([[20, 5], [10, 15]]).kappa, 2)
        0.4
    """
    count = np.asarray(table, dtype=float)
    require(count.ndim == 2 and count.shape[0] == count.shape[1], "the table must be square")
    require(bool(np.all(count >= 0)), "counts cannot be negative")
    n = int(count.sum())
    if n == 0:
        return Agreement(None, None, None, None, None, 0)
    share = count / n
    rows, columns = share.sum(axis=1), share.sum(axis=0)
    observed, expected = float(np.trace(share)), float(rows @ columns)
    if expected >= 1:
        return Agreement(None, None, None, observed, expected, n)
    kappa = (observed - expected) / (1 - expected)
    # Fleiss, Cohen and Everitt 1969, equation 13.
    weight = rows[None, :] + columns[:, None]
    on = (np.diag(share) * ((1 - expected) - (rows + columns) * (1 - observed)) ** 2).sum()
    off = (share * weight**2).sum() - (np.diag(share) * np.diag(weight) ** 2).sum()
    middle = (observed * expected - 2 * expected + observed) ** 2
    variance = float(on + (1 - observed) ** 2 * off - middle) / (n * (1 - expected) ** 4)
    half = Z95 * sqrt(max(0.0, variance))
    return Agreement(kappa, max(-1.0, kappa - half), min(1.0, kappa + half), observed, expected, n)


def fleiss_kappa(ratings: ArrayLike) -> Agreement:
    """Give the agreement of several evaluators (or retests) over the same units.

    Args:
        ratings: counts, shape (units, verdicts): how many gave the unit that verdict; each unit has
            the same number of looks, at least two.

    Returns:
        Fleiss' kappa without interval. No unit, or one verdict throughout: None.

    Raises:
        ValueError: units have different or too few numbers of looks.

    Source:
        J. L. Fleiss, "Measuring nominal scale agreement among many raters", Psychological Bulletin
        76 (1971), pages 378-382.

    Example:
        >>> round(fleiss_kappa([[3, 0], [2, 1], [0, 3], [0, 3]]).kappa, 3)
        0.657
    """
    count = np.asarray(ratings, dtype=float)
    if not count.size:
        return Agreement(None, None, None, None, None, 0)
    require(count.ndim == 2 and bool(np.all(count >= 0)), "counts by unit and verdict")
    looks = count.sum(axis=1)
    require(bool(np.all(looks == looks[0])) and looks[0] >= 2, "each unit needs equally many looks")
    per_unit = (np.square(count).sum(axis=1) - looks) / (looks * (looks - 1))
    observed = float(per_unit.mean())
    expected = float(np.square(count.sum(axis=0) / count.sum()).sum())
    kappa = (observed - expected) / (1 - expected) if expected < 1 else None
    return Agreement(kappa, None, None, observed, expected, len(count))


def mcnemar(only_first: int, only_second: int) -> PairedChange:
    """Test whether two looks at the same units call a fault equally often.

    Args:
        only_first: units that only the first look failed.
        only_second: units that only the second look failed.

    Returns:
        McNemar's statistic with and without correction and the exact p-value.

    Raises:
        ValueError: a count is negative.

    Source:
        Q. McNemar, Psychometrika 12 (1947), pages 153-157; corrected: A. L. Edwards, Psychometrika
        13 (1948), pages 185-187.

    Example:
        >>> round(mcnemar(86, 150).chi2, 4)
        17.3559
    """
    require(min(only_first, only_second) >= 0, "counts cannot be negative")
    both = only_first + only_second
    if both == 0:
        return PairedChange(0.0, 0.0, 1.0, 1.0)
    difference = abs(only_first - only_second)
    chi2, corrected = difference**2 / both, max(0, difference - 1) ** 2 / both
    return PairedChange(chi2, corrected, chi2_p(corrected), binomial_p(only_first, both, 0.5))
