"""In which range of a measured number a defect crowds: "below 4.8 mm one in ten leaks"."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from eol.statistics.interval import require
from eol.statistics.scan import DRAWS, SEED, ScanOrder, scan_order


@dataclass(frozen=True, slots=True)
class ValueRange:
    """The range of values in which a defect crowds most.

    Args:
        low: smallest value in it; None where it reaches the smallest of all.
        high: largest value in it; None where it reaches the largest of all.
        defects: units with the defect in it.
        units: units in it.
        expected: defects that many units would have by the share over all.
        p: chance that shuffled units crowd as much in any range.
    """

    low: float | None
    high: float | None
    defects: int
    units: int
    expected: float
    p: float


def best_range(
    values: ArrayLike,
    defect: ArrayLike,
    *,
    stratum: ArrayLike | None = None,
    draws: int = DRAWS,
    seed: int = SEED,
) -> ValueRange | None:
    """Find the range of a measured number in which a defect crowds most, with its p-value.

    Args:
        values: measured numbers, one a unit, in any unit of measure.
        defect: whether the unit has the defect, one a unit.
        stratum: the unit's stratum as a code (shift and model): shuffles stay within it, so that
            what differs between strata only cannot pass; None: one stratum.
        draws: shuffles.
        seed: of the shuffles.

    Returns:
        The range; equal values are never parted. None with fewer than two defects, or where no
        range of at most half the units shows a higher share than the rest.

    Raises:
        ValueError: the lists differ in length, or a value is not a number.

    Source:
        Kulldorff 1997 as for `scan_sequence`, over the order of the values; as a range of greatest
        likelihood: R. Miller and D. Siegmund, Biometrics 38 (1982), pages 1011-1016.

    Example:
        >>> found = best_range([4.5, 4.6, 4.7, 5.5, 5.8, 6, 6.1, 6.2, 6.3, 6.5], [1] * 3 + [0] * 7)
        >>> found.low, found.high, found.defects, found.units
        (None, 4.7, 3, 3)
    """
    value = np.atleast_1d(np.asarray(values, dtype=float))
    flag = np.atleast_1d(np.asarray(defect)).astype(bool)
    require(value.shape == flag.shape, "one value and one defect a unit")
    require(not np.isnan(value).any(), "values must be numbers")
    group = np.zeros(len(value), dtype=np.int64) if stratum is None else np.asarray(stratum)
    require(len(group) == len(value), "one stratum a unit")
    by_value = np.argsort(value, kind="stable")
    ordered = value[by_value]
    order = ScanOrder(
        first=np.searchsorted(ordered, ordered),
        last=np.searchsorted(ordered, ordered, side="right") - 1,
        stratum=group[by_value],
        longest=len(value) / 2,
    )
    window = scan_order(np.flatnonzero(flag[by_value]), order, draws=draws, seed=seed)
    if window is None:
        return None
    return ValueRange(
        low=float(ordered[window.first]) if window.first > 0 else None,
        high=float(ordered[window.last]) if window.last < len(value) - 1 else None,
        defects=window.defects,
        units=window.units,
        expected=window.expected,
        p=window.p,
    )
