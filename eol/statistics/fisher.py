"""Two shares compared exactly: is one bay, lot or variant worse (or too good) beyond chance."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import gammaln

from eol.statistics.interval import require


@dataclass(frozen=True, slots=True)
class ExactComparison:
    """Two shares side by side.

    Args:
        ratio: share of the first over share of the second; None where the second is 0 or unknown.
        odds_ratio: the sample odds ratio; None where it has no finite value.
        p: two-sided p-value of "the shares are equal".
        p_more: p-value against "the first is not higher".
        p_fewer: p-value against "the first is not lower".
    """

    ratio: float | None
    odds_ratio: float | None
    p: float
    p_more: float
    p_fewer: float


@dataclass(frozen=True, slots=True)
class ExactWithin:
    """A factor against a defect within strata, exactly.

    Args:
        observed: defects of the units with the factor.
        expected: what they would have were the factor nothing.
        p: two-sided p-value.
        p_more: p-value against "not more than elsewhere".
        p_fewer: p-value against "not fewer than elsewhere".
    """

    observed: int
    expected: float
    p: float
    p_more: float
    p_fewer: float


def fisher(first: tuple[int, int], second: tuple[int, int]) -> ExactComparison:
    """Compare two shares of units by Fisher's exact test.

    Args:
        first: (units with the defect, units) of the group asked about.
        second: the same of the group compared with.

    Returns:
        Ratio of the shares, odds ratio and p-values (two-sided: the sum of the tables that are no
        likelier than this one). A group without units, or no defect at all: p = 1.

    Raises:
        ValueError: units with the defect lie outside 0..units.

    Source:
        R. A. Fisher, "The Design of Experiments", 1935, chapter 2; the two-sided p of J. O. Irwin,
        Metron 12 (1935), pages 83-94, as in R's fisher.test.

    Example:
        >>> bays = fisher((11, 1022), (57, 2178))
        >>> round(bays.ratio, 2), round(bays.p, 4)
        (0.41, 0.0037)
    """
    (bad, units), (bad_2, units_2) = first, second
    require(0 <= bad <= units and 0 <= bad_2 <= units_2, "units with the defect are units")
    both = bad + bad_2
    chance, low = _chances(both, units, units_2)
    two, more, fewer = _tails(chance, bad - low)
    odds = (units - bad) * bad_2
    return ExactComparison(
        ratio=(bad / units) / (bad_2 / units_2) if units and bad_2 else None,
        odds_ratio=bad * (units_2 - bad_2) / odds if odds else None,
        p=two,
        p_more=more,
        p_fewer=fewer,
    )


def fisher_within(tables: ArrayLike) -> ExactWithin:
    """Test a factor against a defect within strata exactly, for strata with few defects.

    Args:
        tables: counts, shape (strata, 2, 2): [[defect, none], [defect, none]], first the units that
            have the factor, then the rest.

    Returns:
        Defects of the factor's units, their expectation and p-values given all margins (two-sided:
        the sum of the outcomes that are no likelier). No table: p = 1.

    Raises:
        ValueError: the tables have another shape or negative counts.

    Source:
        J. J. Gart, "Point and interval estimation of the common odds ratio in the combination of
        2 x 2 tables with fixed marginals", Biometrika 57 (1970), pages 471-475; as R's
        mantelhaen.test with exact = TRUE.

    Example:
        >>> found = fisher_within([[[3, 97], [1, 99]], [[6, 94], [2, 98]]])
        >>> found.observed, round(found.expected, 1), round(found.p, 2)
        (9, 6.0, 0.14)
    """
    table = np.asarray(tables, dtype=float)
    if not table.size:
        return ExactWithin(0, 0.0, 1.0, 1.0, 1.0)
    require(table.ndim == 3 and table.shape[1:] == (2, 2), "tables are (strata, 2, 2)")
    require(bool(np.all(table >= 0)), "counts cannot be negative")
    chance, low = np.ones(1), 0
    for (bad, good), (bad_2, good_2) in table.astype(int).tolist():
        part, start = _chances(bad + bad_2, bad + good, bad_2 + good_2)
        chance, low = np.convolve(chance, part), low + start
    observed = int(table[:, 0, 0].sum())
    expected = float((chance * (np.arange(len(chance)) + low)).sum())
    return ExactWithin(observed, expected, *_tails(chance, observed - low))


def _chances(both: int, units: int, units_2: int) -> tuple[NDArray[np.float64], int]:
    """Give the hypergeometric chances of the first group's defects and the fewest it can have."""
    low, high = max(0, both - units_2), min(both, units)
    k = np.arange(low, high + 1)
    log_p = -gammaln(k + 1) - gammaln(units - k + 1)
    log_p -= gammaln(both - k + 1) + gammaln(units_2 - both + k + 1)
    chance = np.exp(log_p - log_p.max())
    return np.asarray(chance / chance.sum()), low


def _tails(chance: NDArray[np.float64], here: int) -> tuple[float, float, float]:
    """Give the two-sided p-value and both one-sided ones (at least, at most)."""
    as_unlikely = chance[chance <= chance[here] * (1 + 1e-7)]
    tails = (as_unlikely.sum(), chance[here:].sum(), chance[: here + 1].sum())
    two, more, fewer = (float(min(1.0, tail)) for tail in tails)
    return two, more, fewer
