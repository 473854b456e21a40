"""Where in build order a defect crowds: a scan of all windows, held against shuffles of the order.

The units are the units at risk in build order (or in the order of the test), counted from 0.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import xlogy

from eol.statistics.helpers import draw_places
from eol.statistics.interval import require

DRAWS = 999
SEED = 1997
FINE = 100  # windows of up to this many defects are all scanned; longer ones in steps of a percent
BLOCK = 100  # shuffles scanned at once


@dataclass(frozen=True, slots=True)
class Window:
    """The window in which a defect crowds most.

    Args:
        first: place of its first unit, a unit with the defect.
        last: place of its last unit, a unit with the defect.
        defects: units with the defect in it.
        units: units in it.
        expected: defects that many units would have by the share over all.
        log_ratio: log likelihood ratio against one share over all.
        p: chance that shuffled units crowd as much anywhere.
    """

    first: int
    last: int
    defects: int
    units: int
    expected: float
    log_ratio: float
    p: float


def scan_sequence(
    places: ArrayLike,
    *,
    units: int,
    stratum: ArrayLike | None = None,
    most_share: float = 0.5,
    draws: int = DRAWS,
    seed: int = SEED,
) -> Window | None:
    """Find the window of build order in which a defect crowds most, with its p-value.

    Args:
        places: places of the units with the defect, ascending, from 0.
        units: units at risk in the whole sequence.
        stratum: the stratum of every unit as a code (model): shuffles stay within it; None: one.
        most_share: longest window, as a share of all units.
        draws: shuffles of the order.
        seed: of the shuffles.

    Returns:
        The window of the highest likelihood ratio; None with fewer than two defects, where every
        unit has it, or where no window shows a higher share than the rest.

    Raises:
        ValueError: places do not ascend or lie outside 0..units-1, or a stratum is missing.

    Source:
        M. Kulldorff, "A spatial scan statistic", Communications in Statistics: Theory and Methods
        26 (1997), pages 1481-1496, Bernoulli model; in one dimension J. Naus, Journal of the
        American Statistical Association 60 (1965), pages 532-538.

    Example:
        >>> window = scan_sequence([3, 500, 503, 504, 509, 900], units=1000)
        >>> window.first, window.last, window.p < 0.05
        (500, 509, True)
    """
    place = np.atleast_1d(np.asarray(places, dtype=np.int64))
    require(bool(np.all(np.diff(place) > 0)), "places must ascend")
    require(not len(place) or (place[0] >= 0 and place[-1] < units), "places lie in 0..units-1")
    each = np.arange(units)
    group = np.zeros(units, dtype=np.int64) if stratum is None else np.asarray(stratum)
    require(len(group) == units, "one stratum a unit")
    order = ScanOrder(each, each, group, most_share * units)
    return scan_order(place, order, draws=draws, seed=seed)


@dataclass(frozen=True, slots=True)
class ScanOrder:
    """An order of units to scan.

    Args:
        first: by place, the first place that belongs with it (of equal values; else itself).
        last: by place, the last place that belongs with it.
        stratum: by place, the stratum within which to shuffle.
        longest: units in the longest window.
    """

    first: NDArray[np.int64]
    last: NDArray[np.int64]
    stratum: NDArray[np.generic]
    longest: float


def scan_order(
    place: NDArray[np.int64], order: ScanOrder, *, draws: int, seed: int
) -> Window | None:
    """Scan an order of units in which places may belong together: the core of the scans.

    Args:
        place: places of the units with the defect, ascending, from 0.
        order: the order and what belongs together in it.
        draws: shuffles.
        seed: of the shuffles.

    Returns:
        The window, or None, as for `scan_sequence`.

    Source:
        Kulldorff 1997, as for `scan_sequence`.

    Example:
        >>> order = ScanOrder(np.array([0, 0, 2, 3, 4, 5]), np.array([1, 1, 2, 3, 4, 5]),
        ...                   np.zeros(6, dtype=np.int64), longest=3)
        >>> scan_order(np.array([0, 1]), order, draws=9, seed=1).units
        2
    """
    total, units = len(place), len(order.first)
    if total < 2 or total == units:
        return None
    sizes = _sizes(total)
    begins, ends = order.first[place], order.last[place]
    spans = _shortest_spans(begins[None, :], ends[None, :], sizes)[0]
    ratios = _log_ratios(sizes, spans, total, units, order.longest)
    best = int(ratios.argmax())
    if ratios[best] <= 0:
        return None
    hits, rng = 0, np.random.default_rng(seed)
    for block in range(0, draws, BLOCK):
        shuffled = _shuffled(place, order.stratum, min(BLOCK, draws - block), rng)
        found = _shortest_spans(order.first[shuffled], order.last[shuffled], sizes)
        highest = _log_ratios(sizes, found, total, units, order.longest).max(axis=1)
        hits += int((highest >= ratios[best] - 1e-9).sum())
    defects, length = int(sizes[best]), int(spans[best])
    lengths = ends[defects - 1 :] - begins[: total - defects + 1] + 1
    start = int(np.flatnonzero(lengths == length)[0])
    return Window(
        first=int(begins[start]),
        last=int(ends[start + defects - 1]),
        defects=defects,
        units=length,
        expected=total * length / units,
        log_ratio=float(ratios[best]),
        p=(1 + hits) / (1 + draws),
    )


def window_log_ratio(*, defects: int, units: int, all_defects: int, all_units: int) -> float:
    """Give Kulldorff's log likelihood ratio of one window; 0 where its share is not the higher one.

    Args:
        defects: units with the defect in the window.
        units: units in the window.
        all_defects: units with the defect in the whole sequence.
        all_units: units in the whole sequence.

    Returns:
        The log likelihood ratio of two shares against one.

    Raises:
        ValueError: the counts contradict one another.

    Source:
        Kulldorff 1997, Bernoulli model, as for `scan_sequence`.

    Example:
        >>> round(window_log_ratio(defects=5, units=10, all_defects=6, all_units=100), 3)
        10.271
    """
    require(0 <= defects <= units <= all_units, "a window lies within the sequence")
    require(defects <= all_defects <= all_units - units + defects, "defects are units")
    sizes, spans = np.array([defects]), np.array([units])
    return float(_log_ratios(sizes, spans, all_defects, all_units, float(all_units))[0])


def _sizes(total: int) -> NDArray[np.int64]:
    """Give the numbers of defects whose windows are scanned."""
    sizes = list(range(2, min(total, FINE) + 1))
    while sizes[-1] < total:
        sizes.append(min(total, sizes[-1] + max(1, sizes[-1] // FINE)))
    return np.array(sizes, dtype=np.int64)


def _shuffled(
    place: NDArray[np.int64],
    stratum: NDArray[np.generic],
    draws: int,
    rng: np.random.Generator,
) -> NDArray[np.int64]:
    """Draw places for the defects, as many in each stratum as it has; rows ascend."""
    groups, counts = np.unique(stratum[place], return_counts=True)
    parts = []
    for group, count in zip(groups, counts.tolist(), strict=True):
        here = np.flatnonzero(stratum == group)
        parts.append(here[draw_places(rng, units=len(here), chosen=count, draws=draws)])
    return np.sort(np.concatenate(parts, axis=1), axis=1)


def _shortest_spans(
    begins: NDArray[np.int64], ends: NDArray[np.int64], sizes: NDArray[np.int64]
) -> NDArray[np.int64]:
    """Give, by row, the fewest units that hold each number of defects.

    Among windows with equally many defects the shortest has the highest ratio: no other counts.
    """
    total = begins.shape[1]
    spans = [
        (ends[:, size - 1 :] - begins[:, : total - size + 1]).min(axis=1) + 1
        for size in sizes.tolist()
    ]
    return np.stack(spans, axis=1)


def _log_ratios(
    sizes: NDArray[np.int64],
    spans: NDArray[np.int64],
    total: int,
    units: int,
    longest: float,
) -> NDArray[np.float64]:
    rest, others = total - sizes, units - spans
    ratio = _log_likelihood(sizes, spans) + _log_likelihood(rest, others)
    ratio -= _log_likelihood(np.array(total), np.array(units))
    # A window of all units has no rest: it shows no higher share than anything.
    higher = sizes * np.maximum(others, 0) > rest * spans
    return np.where(higher & (spans <= longest), ratio, 0.0)


def _log_likelihood(defects: NDArray[np.int64], units: NDArray[np.int64]) -> NDArray[np.float64]:
    good = units - defects
    at_least_one = np.maximum(units, 1)
    return np.asarray(xlogy(defects, defects / at_least_one) + xlogy(good, good / at_least_one))
