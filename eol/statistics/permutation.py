"""A measured number against a defect within strata, by shuffling the defect within each stratum.

What differs between shifts or models cannot pass for a cause: a unit is only compared with units
of its own stratum.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import ndtr

from eol.statistics.helpers import draw_places
from eol.statistics.interval import require

DRAWS = 2000
SEED = 1952


@dataclass(frozen=True, slots=True)
class ShuffleTest:
    """Scores of the units with the defect against shuffles within strata.

    Args:
        observed: sum of the scores of the units with the defect.
        expected: its mean over all shuffles.
        z: how many standard deviations of the shuffles lie between; 0 where they have none.
        p_normal: two-sided p-value from z.
        p: two-sided p-value by counting shuffles; never below 1 / (draws + 1).
        draws: shuffles made; 0 where none could tell.
    """

    observed: float
    expected: float
    z: float
    p_normal: float
    p: float
    draws: int


def stratum_ranks(values: ArrayLike, stratum: ArrayLike) -> NDArray[np.float64]:
    """Turn values into ranks within their stratum, from just above 0 to just below 1.

    Args:
        values: measured numbers, one a unit.
        stratum: the unit's stratum as a code, one a unit.

    Returns:
        Mean rank over (units of the stratum + 1), one a unit: scores for `stratified_permutation`.

    Raises:
        ValueError: the lists differ in length.

    Source:
        P. van Elteren, "On the combination of independent two-sample tests of Wilcoxon", Bulletin
        of the International Statistical Institute 37 (1960), pages 351-361.

    Example:
        >>> stratum_ranks([5.0, 7.0, 7.0, 90.0], [0, 0, 0, 1]).tolist()
        [0.25, 0.625, 0.625, 0.5]
    """
    value = np.atleast_1d(np.asarray(values, dtype=float))
    group = np.atleast_1d(np.asarray(stratum))
    require(value.shape == group.shape, "one value and one stratum a unit")
    order = np.lexsort((value, group))
    v, g = value[order], group[order]
    new_tie = np.append(True, (v[1:] != v[:-1]) | (g[1:] != g[:-1]))[: len(v)]
    new_group = np.append(True, g[1:] != g[:-1])[: len(v)]
    first, last = _spans(new_tie)
    start, end = _spans(new_group)
    ranks = np.empty(len(v))
    ranks[order] = ((first + last) / 2 - start + 1) / (end - start + 2)
    return ranks


def stratified_permutation(
    scores: ArrayLike,
    defect: ArrayLike,
    stratum: ArrayLike,
    *,
    draws: int = DRAWS,
    seed: int = SEED,
) -> ShuffleTest:
    """Test whether units with a defect have other scores than the rest of their stratum.

    Args:
        scores: a number a unit: the value itself, its rank within the stratum, or 0 and 1.
        defect: whether the unit has the defect, one a unit.
        stratum: the unit's stratum as a code, one a unit.
        draws: shuffles to make.
        seed: of the shuffles.

    Returns:
        Observed and expected sum, z and both p-values. Where no stratum has units with and without
        the defect there is nothing to shuffle: p = 1.

    Raises:
        ValueError: the lists differ in length.

    Source:
        E. J. G. Pitman, Supplement to the Journal of the Royal Statistical Society 4 (1937), pages
        119-130; within strata: P. Good, "Permutation Tests", 1994, section 3.3; p as (1 + hits) /
        (1 + draws): B. Phipson and G. K. Smyth, Statistical Applications in Genetics 9 (2010).

    Example:
        >>> test = stratified_permutation([4.6, 6, 6.1, 4.5, 5.9], [1, 0, 0, 1, 0], [0] * 5)
        >>> round(test.z, 2), round(test.p, 1)
        (-1.99, 0.1)
    """
    score = np.atleast_1d(np.asarray(scores, dtype=float))
    flag = np.atleast_1d(np.asarray(defect)).astype(bool)
    group = np.atleast_1d(np.asarray(stratum))
    require(score.shape == flag.shape == group.shape, "one score, defect and stratum a unit")
    parts = _parts(score, flag, group)
    observed = float(score[flag].sum())
    expected = sum(int(marked.sum()) * float(part.mean()) for part, marked in parts)
    variance = sum(_variance(part, int(marked.sum())) for part, marked in parts)
    if variance <= 0:
        return ShuffleTest(observed, expected, 0.0, 1.0, 1.0, 0)
    z = (observed - expected) / sqrt(variance)
    sums = _shuffled_sums(parts, draws, seed)
    hits = int((np.abs(sums - expected) >= abs(observed - expected) - 1e-9).sum())
    p = (1 + hits) / (1 + draws)
    return ShuffleTest(observed, expected, z, float(2 * ndtr(-abs(z))), p, draws)


def _parts(
    score: NDArray[np.float64], flag: NDArray[np.bool_], group: NDArray[np.generic]
) -> list[tuple[NDArray[np.float64], NDArray[np.bool_]]]:
    """Split the units by stratum, leaving out strata without the defect."""
    order = np.argsort(group, kind="stable")
    edges = np.flatnonzero(group[order][1:] != group[order][:-1]) + 1
    pieces = zip(np.split(score[order], edges), np.split(flag[order], edges), strict=True)
    return [(part, marked) for part, marked in pieces if marked.any()]


def _variance(part: NDArray[np.float64], chosen: int) -> float:
    units = len(part)
    if chosen in (0, units):
        return 0.0
    return chosen * (units - chosen) / units * float(part.var(ddof=1))


def _shuffled_sums(
    parts: list[tuple[NDArray[np.float64], NDArray[np.bool_]]], draws: int, seed: int
) -> NDArray[np.float64]:
    rng = np.random.default_rng(seed)
    sums = np.zeros(draws)
    for part, marked in parts:
        places = draw_places(rng, units=len(part), chosen=int(marked.sum()), draws=draws)
        sums += part[places].sum(axis=1)
    return sums


def _spans(begins: NDArray[np.bool_]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Give the first and last place (from 1) of the run that each place belongs to."""
    starts = np.flatnonzero(begins)
    lengths = np.diff(np.append(starts, len(begins)))
    first = np.repeat(starts + 1, lengths)
    return first, np.repeat(starts + lengths, lengths)
