"""All stretches of build order in which a defect runs at its raised share, each with its edges.

The scan gives one window over several nights; the stretches tell the nights apart. Each stretch
must earn a cost, so that one defect alone is none and a quiet day between two nights stays out.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log

import numpy as np
from numpy.typing import ArrayLike, NDArray

from eol.statistics.interval import require


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of a sequence.

    Args:
        first: place of its first element.
        last: place of its last element.
        score: sum of its scores, the cost not taken off.
    """

    first: int
    last: int
    score: float


@dataclass(frozen=True, slots=True)
class AffectedStretch:
    """A stretch of units at risk that fits the raised share better than the usual one.

    Args:
        first: place of its first unit, a unit with the defect.
        last: place of its last unit, a unit with the defect.
        defects: units with the defect in it.
        units: units in it.
        score: log likelihood ratio of the raised share against the usual one.
    """

    first: int
    last: int
    defects: int
    units: int
    score: float


def best_stretches(scores: ArrayLike, *, cost: float) -> tuple[Stretch, ...]:
    """Choose the stretches of a sequence whose scores sum to the most, less a cost for each.

    Args:
        scores: a number an element, above and below 0.
        cost: what a stretch must earn, 0 or more.

    Returns:
        The stretches in the order of the sequence; none where no stretch earns its cost.

    Raises:
        ValueError: a score is no number, or the cost negative.

    Source:
        M. Csűrös, "Maximum-scoring segment sets", IEEE/ACM Transactions on Computational Biology
        and Bioinformatics 1 (2004), pages 139-150; the path of A. J. Viterbi, IEEE Transactions on
        Information Theory 13 (1967), pages 260-269, through two states.

    Example:
        >>> found = best_stretches([4, -9, 6, -1, 5, -2], cost=4.5)
        >>> [(stretch.first, stretch.last, stretch.score) for stretch in found]
        [(2, 4, 10.0)]
    """
    score = np.atleast_1d(np.asarray(scores, dtype=float))
    require(not np.isnan(score).any(), "scores must be numbers")
    require(cost >= 0, "a cost cannot be negative")
    began, ended = _paths(score, cost)
    found = []
    place = len(score)
    while place > 0:
        place -= 1
        if ended[place]:
            first = int(began[place])
            found.append(Stretch(first, place, float(score[first : place + 1].sum())))
            place = first
    return tuple(reversed(found))


def affected_stretches(
    places: ArrayLike, *, units: int, usual: float, raised: float
) -> tuple[AffectedStretch, ...]:
    """Find the stretches of build order in which a defect runs at a raised share.

    Args:
        places: places of the units with the defect among the units at risk, ascending, from 0.
        units: units at risk in the whole sequence; a stretch must earn ln(units).
        usual: share of units with the defect where nothing is wrong, above 0.
        raised: share where something is, below 1 (the share of the scan's window).

    Returns:
        The stretches in build order; none without defects.

    Raises:
        ValueError: places do not ascend or lie outside 0..units-1, or the shares are not
            0 < usual < raised < 1.

    Source:
        Stretches as for `best_stretches`; log likelihood ratios as scores: S. Karlin and S. F.
        Altschul, Proceedings of the National Academy of Sciences 87 (1990), pages 2264-2268; the
        cost of two edges by G. Schwarz, Annals of Statistics 6 (1978), pages 461-464.

    Example:
        >>> places = [5, 100, 104, 109, 111, 400]
        >>> found = affected_stretches(places, units=500, usual=0.005, raised=0.2)
        >>> [(stretch.first, stretch.last, stretch.defects) for stretch in found]
        [(100, 111, 4)]
    """
    require(0 < usual < raised < 1, "the shares must be 0 < usual < raised < 1")
    place = np.atleast_1d(np.asarray(places, dtype=np.int64))
    require(bool(np.all(np.diff(place) > 0)), "places must ascend")
    require(not len(place) or (place[0] >= 0 and place[-1] < units), "places lie in 0..units-1")
    gain, loss = log(raised / usual), log((1 - raised) / (1 - usual))
    # Defects at even elements, the units between them, summed up, at odd ones.
    scores = np.full(max(0, 2 * len(place) - 1), gain)
    scores[1::2] = (np.diff(place) - 1) * loss
    found = []
    for stretch in best_stretches(scores, cost=log(max(units, 1))):
        one, other = stretch.first // 2, stretch.last // 2
        first, last = int(place[one]), int(place[other])
        count, length = other - one + 1, last - first + 1
        found.append(AffectedStretch(first, last, count, length, stretch.score))
    return tuple(found)


def _paths(score: NDArray[np.float64], cost: float) -> tuple[NDArray[np.int64], NDArray[np.bool_]]:
    """Give, by element, where a stretch ending there began, and whether the best path ends one."""
    began = np.zeros(len(score), dtype=np.int64)
    ended = np.zeros(len(score), dtype=np.bool_)
    outside, inside, start = 0.0, -np.inf, 0
    for place, value in enumerate(score.tolist()):
        if outside - cost > inside:
            inside, start = outside - cost, place
        inside += value
        began[place] = start
        if inside > outside:
            outside, ended[place] = inside, True
    return began, ended
