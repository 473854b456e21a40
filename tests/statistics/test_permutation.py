"""Shuffles within strata: edges, the decoy, the draws themselves."""

import numpy as np
import pytest
from scipy.stats import rankdata

from eol.statistics.permutation import stratified_permutation, stratum_ranks


def test_what_differs_between_strata_only_is_silent():
    """Nights have low values and more defects; within a night the value does not matter."""
    rng = np.random.default_rng(11)
    night = np.repeat([0, 1], 500)
    values = rng.normal(size=1000) - 3 * night
    defect = rng.random(1000) < np.where(night, 0.2, 0.02)
    assert stratified_permutation(values, defect, np.zeros(1000)).p < 0.01
    assert stratified_permutation(values, defect, night).p > 0.05


def test_what_differs_within_strata_is_found():
    """Thin beads leak, in each shift alike."""
    rng = np.random.default_rng(12)
    shift = np.repeat(np.arange(20), 100)
    bead = rng.normal(6, 0.5, size=2000)
    defect = rng.random(2000) < np.where(bead < 5.2, 0.3, 0.01)
    found = stratified_permutation(stratum_ranks(bead, shift), defect, shift)
    assert found.z < -4
    assert found.p == pytest.approx(1 / 2001)


def test_stratum_ranks_agree_with_ranks_stratum_by_stratum():
    """Mean ranks over n + 1, each stratum for itself."""
    rng = np.random.default_rng(13)
    stratum, value = rng.integers(0, 4, 200), rng.integers(0, 9, 200)
    found = stratum_ranks(value, stratum)
    for group in range(4):
        here = stratum == group
        assert found[here] == pytest.approx(rankdata(value[here]) / (here.sum() + 1))


@pytest.mark.parametrize("defect", [[0, 0, 0], [1, 1, 1], []])
def test_nothing_to_shuffle(defect):
    """No defect, all defects, no unit: p 1, no draws."""
    found = stratified_permutation([1.0, 2.0, 3.0][: len(defect)], defect, [0] * len(defect))
    assert (found.z, found.p, found.p_normal, found.draws) == (0, 1, 1, 0)


def test_unequal_lists_are_refused():
    """One score, defect and stratum a unit."""
    with pytest.raises(ValueError, match="one score"):
        stratified_permutation([1.0], [1, 0], [0, 0])
