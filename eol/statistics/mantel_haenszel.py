"""A factor against a defect within strata (shift and model): Cochran, Mantel and Haenszel.

A table is [[defect, none], [defect, none]]: first the units that have the factor, then the rest.
A bay that only gets the harder units looks bad in the sum of all tables, and not within them.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log, sqrt

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import gammaincc

from eol.statistics.helpers import chi2_p, informative
from eol.statistics.interval import quantile, require


@dataclass(frozen=True, slots=True)
class StratifiedOdds:
    """A factor within strata.

    Args:
        odds_ratio: the common odds ratio; None where it has no finite value.
        low: lower end of its interval; None where it cannot be given.
        high: upper end.
        chi2: Cochran-Mantel-Haenszel statistic, 1 degree of freedom.
        p: its p-value; 1 where no stratum can tell.
        chi2_corrected: the same with the continuity correction.
        p_corrected: its p-value.
        strata: strata that can tell (both kinds of units, some with and some without the defect).
    """

    odds_ratio: float | None
    low: float | None
    high: float | None
    chi2: float
    p: float
    chi2_corrected: float
    p_corrected: float
    strata: int


def mantel_haenszel(tables: ArrayLike, *, confidence: float = 0.95) -> StratifiedOdds:
    """Test a factor against a defect within strata and give the common odds ratio.

    Args:
        tables: counts, shape (strata, 2, 2); strata that cannot tell add nothing.
        confidence: between 0 and 1.

    Returns:
        The Mantel-Haenszel odds ratio with the interval of Robins, Breslow and Greenland, and the
        Cochran-Mantel-Haenszel test with and without correction.

    Raises:
        ValueError: the tables have another shape or negative counts.

    Source:
        N. Mantel and W. Haenszel, Journal of the National Cancer Institute 22 (1959), pages
        719-748; J. Robins, N. Breslow and S. Greenland, Biometrics 42 (1986), pages 311-323.

    Example:
        >>> found = mantel_haenszel([[[3, 97], [1, 99]], [[6, 94], [2, 98]]])
        >>> round(found.odds_ratio, 2), round(found.p, 3)
        (3.11, 0.079)
    """
    table = informative(tables)
    excess, variance = _excess(table)
    plain, corrected = abs(excess), max(0.0, abs(excess) - 0.5)
    chi2, chi2_corrected = (d * d / variance if variance > 0 else 0.0 for d in (plain, corrected))
    odds_ratio, low, high = _common_odds(table, quantile(confidence))
    return StratifiedOdds(
        odds_ratio=odds_ratio,
        low=low,
        high=high,
        chi2=chi2,
        p=chi2_p(chi2),
        chi2_corrected=chi2_corrected,
        p_corrected=chi2_p(chi2_corrected),
        strata=len(table),
    )


def level_tables(defect: ArrayLike, level: ArrayLike, stratum: ArrayLike) -> NDArray[np.float64]:
    """Count units into one table a level of a factor and stratum, each level against all others.

    Args:
        defect: whether the unit has the defect, one a unit.
        level: the unit's level of the factor as a code from 0, one a unit.
        stratum: the unit's stratum as a code from 0, one a unit.

    Returns:
        Counts, shape (levels, strata, 2, 2). No unit: shape (0, 0, 2, 2).

    Raises:
        ValueError: the lists differ in length, or a code is negative.

    Source:
        Counting alone; the layout of Mantel and Haenszel 1959.

    Example:
        >>> level_tables([1, 0, 0], [0, 0, 1], [0, 0, 0])[1, 0].tolist()
        [[0.0, 1.0], [1.0, 1.0]]
    """
    flag = np.atleast_1d(np.asarray(defect)).astype(np.int64)
    code = np.atleast_1d(np.asarray(level)).astype(np.int64)
    group = np.atleast_1d(np.asarray(stratum)).astype(np.int64)
    require(flag.shape == code.shape == group.shape, "one defect, level and stratum a unit")
    if not len(flag):
        return np.zeros((0, 0, 2, 2))
    require(min(code.min(), group.min()) >= 0, "codes start from 0")
    levels, strata = int(code.max()) + 1, int(group.max()) + 1
    cell = (code * strata + group) * 2 + (1 - flag)
    have = np.bincount(cell, minlength=levels * strata * 2).reshape(levels, strata, 2)
    rest = have.sum(axis=0, keepdims=True) - have
    return np.stack([have, rest], axis=2).astype(float)


def screen_levels(tables: ArrayLike) -> tuple[float, ...]:
    """Give the Cochran-Mantel-Haenszel p-value of many factors or levels at once.

    Args:
        tables: counts, shape (levels, strata, 2, 2), as `level_tables` gives them.

    Returns:
        The p-value without correction of each level; 1 where no stratum can tell.

    Raises:
        ValueError: the tables have another shape or negative counts.

    Source:
        Mantel and Haenszel 1959, as for `mantel_haenszel`.

    Example:
        >>> [round(p, 3) for p in screen_levels([[[[3, 97], [1, 99]], [[6, 94], [2, 98]]]])]
        [0.079]
    """
    table = np.asarray(tables, dtype=float)
    require(table.ndim == 4 and table.shape[2:] == (2, 2), "tables are (levels, strata, 2, 2)")
    require(bool(np.all(table >= 0)), "counts cannot be negative")
    n = np.maximum(table.sum(axis=(2, 3)), 2)
    rows, columns = table.sum(axis=3), table.sum(axis=2)
    expected = rows[..., 0] * columns[..., 0] / n
    variance = rows.prod(axis=2) * columns.prod(axis=2) / (n * n * (n - 1))
    excess = (table[..., 0, 0] - expected).sum(axis=1)
    total = variance.sum(axis=1)
    chi2 = np.divide(excess**2, total, out=np.zeros_like(total), where=total > 0)
    return tuple(np.asarray(gammaincc(0.5, chi2 / 2)).tolist())


def _excess(table: NDArray[np.float64]) -> tuple[float, float]:
    """Give defects of the factor's units beyond expectation, and their variance."""
    n = table.sum(axis=(1, 2))
    rows, columns = table.sum(axis=2), table.sum(axis=1)
    expected = rows[:, 0] * columns[:, 0] / n
    variance = rows.prod(axis=1) * columns.prod(axis=1) / (n * n * (n - 1))
    return float((table[:, 0, 0] - expected).sum()), float(variance.sum())


def _common_odds(
    table: NDArray[np.float64], z: float
) -> tuple[float | None, float | None, float | None]:
    n = table.sum(axis=(1, 2))
    p = (table[:, 0, 0] + table[:, 1, 1]) / n
    r = table[:, 0, 0] * table[:, 1, 1] / n
    s = table[:, 0, 1] * table[:, 1, 0] / n
    top, bottom = float(r.sum()), float(s.sum())
    if bottom == 0:
        return None, None, None
    if top == 0:
        return 0.0, None, None
    variance = float((p * r).sum()) / (2 * top * top)
    variance += float((p * s + (1 - p) * r).sum()) / (2 * top * bottom)
    variance += float(((1 - p) * s).sum()) / (2 * bottom * bottom)
    odds, half = top / bottom, z * sqrt(variance)
    return odds, exp(log(odds) - half), exp(log(odds) + half)
