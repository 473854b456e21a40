"""Stretches: planted nights, edges and a second opinion over all choices."""

from itertools import combinations

import numpy as np
import pytest

from eol.statistics.stretches import affected_stretches, best_stretches


def test_two_nights_are_told_apart():
    """Two nights of 400 units at 10 %, eight quiet hundreds between: two stretches, edges within 60."""
    rng = np.random.default_rng(31)
    bad = rng.random(4000) < 0.003
    for night in (1000, 2200):
        bad[night : night + 400] = rng.random(400) < 0.1
    one, two = affected_stretches(np.flatnonzero(bad), units=4000, usual=0.003, raised=0.1)
    edges = np.array([one.first, one.last, two.first, two.last])
    assert np.abs(edges - [1000, 1399, 2200, 2599]).max() < 60


def test_choice_is_the_best_of_all():
    """Every set of up to three stretches of eight elements, tried one by one, earns no more."""
    scores = np.random.default_rng(32).normal(0, 2, 8)
    best = 0.0
    for count in (1, 2, 3):
        for edges in combinations(range(9), 2 * count):
            pairs = zip(edges[::2], edges[1::2], strict=True)
            best = max(best, sum(scores[a:b].sum() for a, b in pairs) - count * 1.5)
    found = best_stretches(scores, cost=1.5)
    assert sum(s.score - 1.5 for s in found) == pytest.approx(best)


@pytest.mark.parametrize("scores", [[], [-1.0], [0.0, -2.0], [2.0, -5.0, 2.0]])
def test_nothing_earns_its_cost(scores):
    """No score above the cost: no stretch."""
    assert best_stretches(scores, cost=3) == ()


def test_no_defect_and_one_are_no_stretch():
    """One defect alone does not earn the cost of its edges."""
    assert affected_stretches([], units=0, usual=0.01, raised=0.1) == ()
    assert affected_stretches([7], units=900, usual=0.001, raised=0.1) == ()


def test_shares_in_the_wrong_order_are_refused():
    """The raised share is the higher one."""
    with pytest.raises(ValueError, match="usual < raised"):
        affected_stretches([1], units=9, usual=0.1, raised=0.01)
