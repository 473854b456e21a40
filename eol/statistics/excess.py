"""How many defects a factor explains: those beyond what its units would have had without it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from eol.statistics.interval import require


@dataclass(frozen=True, slots=True)
class Excess:
    """Defects of the units with a factor beyond expectation.

    Args:
        defects: defects of the units with the factor.
        expected: what they would have had at the share of the rest of their stratum.
        excess: the difference; below 0 where the factor protects.
        explained: excess over all defects, in units with and without the factor; None without any.
    """

    defects: float
    expected: float
    excess: float
    explained: float | None


def excess_defects(tables: ArrayLike) -> Excess:
    """Count the defects that a factor explains within strata.

    Args:
        tables: counts, shape (strata, 2, 2): [[defect, none], [defect, none]], first the units that
            have the factor, then the rest. One stratum gives the crude excess. Strata without any
            rest have nothing to expect by: their defects count as expected.

    Returns:
        Defects, expected defects, excess and the share of all defects explained.

    Raises:
        ValueError: the tables have another shape or negative counts.

    Source:
        M. L. Levin, Acta Unio Internationalis contra Cancrum 9 (1953), pages 531-541; within strata
        O. S. Miettinen, American Journal of Epidemiology 99 (1974), pages 325-332.

    Example:
        >>> found = excess_defects([[[73, 1032], [15, 2080]]])
        >>> round(found.expected, 1), round(found.excess, 1), round(found.explained, 2)
        (7.9, 65.1, 0.74)
    """
    table = np.asarray(tables, dtype=float)
    if not table.size:
        return Excess(0.0, 0.0, 0.0, None)
    require(table.ndim == 3 and table.shape[1:] == (2, 2), "tables are (strata, 2, 2)")
    require(bool(np.all(table >= 0)), "counts cannot be negative")
    units, rest = table[:, 0].sum(axis=1), table[:, 1].sum(axis=1)
    defects = table[:, 0, 0]
    by_rest = units * table[:, 1, 0] / np.maximum(rest, 1)
    expected = np.where(rest > 0, by_rest, defects)
    excess = float((defects - expected).sum())
    total = float(table[:, :, 0].sum())
    explained = excess / total if total else None
    return Excess(float(defects.sum()), float(expected.sum()), excess, explained)
