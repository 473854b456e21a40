"""Units between defects: the watch for rare codes, where counts per shift are mostly zero."""

from __future__ import annotations

from dataclasses import dataclass
from math import log, log1p

import numpy as np
from numpy.typing import ArrayLike
from scipy.special import betainc

from eol.statistics.interval import require


@dataclass(frozen=True, slots=True)
class GapLimits:
    """Usual numbers of units from one defect to the next.

    Args:
        low: a gap below it is sooner than usual.
        center: the median.
        high: a gap above it is later than usual.
    """

    low: float
    center: float
    high: float


@dataclass(frozen=True, slots=True)
class Gap:
    """Units from one defect to the next (or to the one `events` further on).

    Args:
        place: position of the later unit in the series.
        units: units from the earlier one to this one, this one counted.
        p: chance that so many defects come at least as soon at the usual share.
        signal: whether p is at most the level asked for.
    """

    place: int
    units: int
    p: float
    signal: bool


def gap_limits(share: float, *, tail: float = 0.00135) -> GapLimits:
    """Give the limits of a chart of conforming units between two defects.

    Args:
        share: the usual share of units with the defect, between 0 and 1.
        tail: chance beyond each limit.

    Returns:
        Low, median and high number of units, not rounded.

    Raises:
        ValueError: share or tail lies outside 0..1.

    Source:
        T. W. Calvin, "Quality control techniques for zero defects", IEEE Transactions on
        Components, Hybrids, and Manufacturing Technology 6 (1983), pages 323-328; T. N. Goh, "A
        control chart for very high yield processes", Quality Assurance 13 (1987), pages 18-22.

    Example:
        >>> limits = gap_limits(0.0005)
        >>> round(limits.low, 1), round(limits.center), round(limits.high)
        (2.7, 1386, 13212)
    """
    require(0 < share < 1 and 0 < tail < 0.5, "share and tail must lie between 0 and 1")
    scale = log1p(-share)
    return GapLimits(log1p(-tail) / scale, log(0.5) / scale, log(tail) / scale)


def chance_within(units: int, *, share: float, events: int = 1) -> float:
    """Give the chance that a number of defects comes within so many units.

    Args:
        units: units looked at.
        share: the usual share of units with the defect, 0 to 1.
        events: defects, at least 1.

    Returns:
        P(at least `events` of `units`), binomial.

    Raises:
        ValueError: a number is negative, or share outside 0..1.

    Source:
        M. Xie, T. N. Goh and P. Ranjan, "Some effective control chart procedures for reliability
        monitoring", Reliability Engineering and System Safety 77 (2002), pages 143-150: the gap to
        the r-th event.

    Example:
        >>> round(chance_within(500, share=0.0008, events=3), 5)
        0.00789
    """
    require(units >= 0 and events >= 1, "units cannot be negative, events are at least 1")
    require(0 <= share <= 1, "a share lies between 0 and 1")
    if units < events:
        return 0.0
    return float(betainc(events, units - events + 1, share))


def units_between(
    places: ArrayLike, *, share: float, events: int = 1, level: float = 0.00135
) -> tuple[Gap, ...]:
    """Follow a rare code from defect to defect and tell which came too soon.

    Args:
        places: positions of the units with the defect in the series of units at risk, ascending.
        share: the usual share of units with the defect, from a baseline that leaves these out.
        events: look back over so many gaps; 2 or 3 find a moderate rise that one gap cannot show.
        level: a chance at or below it signals.

    Returns:
        One gap a defect that has `events` before it; none where too few came.

    Raises:
        ValueError: positions do not ascend, or share outside 0..1.

    Source:
        As for `chance_within`.

    Example:
        >>> [gap.signal for gap in units_between([100, 4000, 4001], share=0.001)]
        [False, True]
    """
    place = np.atleast_1d(np.asarray(places, dtype=np.int64))
    require(bool(np.all(np.diff(place) > 0)), "positions must ascend")
    gaps = (place[events:] - place[:-events]).tolist()
    chances = [chance_within(gap, share=share, events=events) for gap in gaps]
    rows = zip(place[events:].tolist(), gaps, chances, strict=True)
    return tuple(Gap(at, units, p, p <= level) for at, units, p in rows)
