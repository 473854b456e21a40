"""Does a factor act alike in all strata: Breslow and Day, Woolf."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from eol.statistics.helpers import chi2_p, informative
from eol.statistics.mantel_haenszel import mantel_haenszel


@dataclass(frozen=True, slots=True)
class Homogeneity:
    """A test of equal odds ratios.

    Args:
        chi2: the statistic.
        p: p-value of "the odds ratio is the same in all strata"; 1 where nothing can be told.
        strata: strata that can tell.
    """

    chi2: float
    p: float
    strata: int


def breslow_day(tables: ArrayLike) -> Homogeneity:
    """Test whether the odds ratio is the same in all strata, fit for small strata.

    Args:
        tables: counts, shape (strata, 2, 2), as for `mantel_haenszel`.

    Returns:
        The statistic of Breslow and Day. Fewer than two strata that can tell, or no finite common
        odds ratio: chi2 0, p 1.

    Raises:
        ValueError: the tables have another shape or negative counts.

    Source:
        N. E. Breslow and N. E. Day, "Statistical Methods in Cancer Research", volume 1, 1980,
        equation 4.32.

    Example:
        >>> breslow_day([[[3, 97], [1, 99]], [[6, 94], [2, 98]]]).p > 0.9
        True
    """
    table = informative(tables)
    odds = mantel_haenszel(table).odds_ratio
    if len(table) < 2 or not odds:
        return Homogeneity(0.0, 1.0, len(table))
    fitted = _fitted(table, odds)
    variance = 1 / (1 / fitted).sum(axis=(1, 2))
    chi2 = float(((table[:, 0, 0] - fitted[:, 0, 0]) ** 2 / variance).sum())
    return Homogeneity(chi2, chi2_p(chi2, len(table) - 1), len(table))


def woolf(tables: ArrayLike) -> Homogeneity:
    """Test whether the odds ratio is the same in all strata, on the log odds ratios.

    Args:
        tables: counts, shape (strata, 2, 2), as for `mantel_haenszel`.

    Returns:
        Woolf's statistic with a half added to every cell, which keeps empty ones finite. Fewer than
        two strata that can tell: chi2 0, p 1.

    Raises:
        ValueError: the tables have another shape or negative counts.

    Source:
        B. Woolf, "On estimating the relation between blood group and disease", Annals of Human
        Genetics 19 (1955), pages 251-253; the half of J. B. S. Haldane, the same 20 (1956), pages
        309-311, as in R's help of mantelhaen.test.

    Example:
        >>> woolf([[[3, 97], [1, 99]], [[6, 94], [2, 98]]]).p > 0.9
        True
    """
    table = informative(tables)
    if len(table) < 2:
        return Homogeneity(0.0, 1.0, len(table))
    cells = table + 0.5
    log_odds = np.log(cells[:, 0, 0] * cells[:, 1, 1] / (cells[:, 0, 1] * cells[:, 1, 0]))
    weight = 1 / (1 / cells).sum(axis=(1, 2))
    mean = float((weight * log_odds).sum() / weight.sum())
    chi2 = float((weight * (log_odds - mean) ** 2).sum())
    return Homogeneity(chi2, chi2_p(chi2, len(table) - 1), len(table))


def _fitted(table: NDArray[np.float64], odds: float) -> NDArray[np.float64]:
    """Give the cells with the table's margins and the common odds ratio (a quadratic's root)."""
    have, defect = table[:, 0].sum(axis=1), table[:, :, 0].sum(axis=1)
    n = table.sum(axis=(1, 2))
    a = 1 - odds
    b = n - have - defect + odds * (have + defect)
    c = -odds * have * defect
    root = np.sqrt(b * b - 4 * a * c)
    # This form of the root stays exact where the odds ratio is 1 and the quadratic vanishes.
    first = -2 * c / (b + root)
    cells = np.stack([first, have - first, defect - first, n - have - defect + first], axis=1)
    return cells.reshape(-1, 2, 2)
