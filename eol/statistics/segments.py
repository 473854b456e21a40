"""All stretches of build order in which a defect runs at its raised share, each with its edges.

The scan gives one window over several nights; the stretches tell the nights apart.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log

import numpy as np
from numpy.typing import ArrayLike

from eol.statistics.interval import require


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of a sequence that scores above 0 and cannot be lengthened to score more.

    Args:
        first: place of its first element.
        last: place of its last element.
        score: sum of its scores.
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


def maximal_stretches(scores: ArrayLike) -> tuple[Stretch, ...]:
    """Find all maximal scoring stretches of a sequence, in one pass.

    Args:
        scores: a number an element, above and below 0.

    Returns:
        The stretches in the order of the sequence; none where no score is above 0.

    Raises:
        ValueError: a score is not a number.

    Source:
        W. L. Ruzzo and M. Tompa, "A linear time algorithm for finding all maximal scoring
        subsequences", Proceedings of the Seventh International Conference on Intelligent Systems
        for Molecular Biology, 1999, pages 234-241.

    Example:
        >>> [stretch.score for stretch in maximal_stretches([4, -5, 3, -3, 1, 2, -2, 2, -2, 1, 5])]
        [4.0, 3.0, 7.0]
    """
    score = np.atleast_1d(np.asarray(scores, dtype=float))
    require(not np.isnan(score).any(), "scores must be numbers")
    # Each entry: first place, last place, sum before it, sum up to its end.
    open_: list[tuple[int, int, float, float]] = []
    total = 0.0
    for place, value in enumerate(score.tolist()):
        if value > 0:
            _join(open_, (place, place, total, total + value))
        total += value
    return tuple(Stretch(first, last, up - before) for first, last, before, up in open_)


def affected_stretches(
    places: ArrayLike, *, usual: float, raised: float, least_score: float = 3.0
) -> tuple[AffectedStretch, ...]:
    """Find the stretches of build order in which a defect runs at a raised share.

    Args:
        places: places of the units with the defect among the units at risk, ascending, from 0.
        usual: share of units with the defect where nothing is wrong, above 0.
        raised: share where something is, below 1 (the share of the scan's window).
        least_score: smallest log likelihood ratio told; 3 is odds of 20 to 1.

    Returns:
        The stretches in build order; none without defects.

    Raises:
        ValueError: places do not ascend, or the shares are not 0 < usual < raised < 1.

    Source:
        Scores as log likelihood ratios: S. Karlin and S. F. Altschul, Proceedings of the National
        Academy of Sciences 87 (1990), pages 2264-2268; stretches by Ruzzo and Tompa 1999.

    Example:
        >>> found = affected_stretches([5, 100, 104, 109, 400], usual=0.005, raised=0.2)
        >>> [(stretch.first, stretch.last) for stretch in found]
        [(5, 5), (100, 109), (400, 400)]
    """
    require(0 < usual < raised < 1, "the shares must be 0 < usual < raised < 1")
    place = np.atleast_1d(np.asarray(places, dtype=np.int64))
    require(bool(np.all(np.diff(place) > 0)), "places must ascend")
    gain, loss = log(raised / usual), log((1 - raised) / (1 - usual))
    # Defects at even elements, the units between them, summed up, at odd ones.
    scores = np.full(max(0, 2 * len(place) - 1), gain)
    scores[1::2] = (np.diff(place) - 1) * loss
    found = []
    for stretch in maximal_stretches(scores):
        one, other = stretch.first // 2, stretch.last // 2
        first, last = int(place[one]), int(place[other])
        if stretch.score >= least_score:
            row = AffectedStretch(first, last, other - one + 1, last - first + 1, stretch.score)
            found.append(row)
    return tuple(found)


def _join(open_: list[tuple[int, int, float, float]], new: tuple[int, int, float, float]) -> None:
    """Join a new stretch to the ones before it, as far back as that raises the score."""
    while True:
        back = next((i for i in range(len(open_) - 1, -1, -1) if open_[i][2] < new[2]), None)
        if back is None or open_[back][3] >= new[3]:
            open_.append(new)
            return
        new = (open_[back][0], new[1], open_[back][2], new[3])
        del open_[back:]
