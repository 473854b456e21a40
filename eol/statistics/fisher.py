"""Two shares compared exactly: is one bay, lot or variant worse (or too good) beyond chance."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
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
    low, high = max(0, both - units_2), min(both, units)
    k = np.arange(low, high + 1)
    log_p = -gammaln(k + 1) - gammaln(units - k + 1)
    log_p -= gammaln(both - k + 1) + gammaln(units_2 - both + k + 1)
    chance = np.exp(log_p - log_p.max())
    chance /= chance.sum()
    here = bad - low
    as_unlikely = chance <= chance[here] * (1 + 1e-7)
    odds = (units - bad) * bad_2
    return ExactComparison(
        ratio=(bad / units) / (bad_2 / units_2) if units and bad_2 else None,
        odds_ratio=bad * (units_2 - bad_2) / odds if odds else None,
        p=float(min(1.0, chance[as_unlikely].sum())),
        p_more=float(min(1.0, chance[here:].sum())),
        p_fewer=float(min(1.0, chance[: here + 1].sum())),
    )
