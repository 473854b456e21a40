"""Shuffles within strata against tests whose answer is printed."""

import numpy as np
import pytest

from eol.statistics.permutation import stratified_permutation, stratum_ranks

# Bickel, Hammel, O'Connell 1975, as in test_mantel_haenszel.py.
BERKELEY = [512, 313, 89, 19, 353, 207, 17, 8, 120, 205, 202, 391]
BERKELEY += [138, 279, 131, 244, 53, 138, 94, 299, 22, 351, 24, 317]


def test_shuffles_within_departments_give_the_mantel_haenszel_test():
    """The shuffles' own variance makes z² the statistic 1.52461 to the last digit."""
    department, women, rejected = np.repeat(np.indices((6, 2, 2)).reshape(3, -1), BERKELEY, axis=1)
    found = stratified_permutation(1 - women, rejected == 0, department)
    assert found.z**2 == pytest.approx(1.52460666044, rel=1e-9)
    assert found.p_normal == pytest.approx(0.216923697056, rel=1e-9)
    assert found.p == pytest.approx(0.2323, abs=0.03)


def test_shuffles_of_the_tea_tasting_are_fishers():
    """Eight cups in one stratum: 0.4857, the sum over all orders (R. A. Fisher 1935)."""
    found = stratified_permutation([1, 1, 1, 0, 1, 0, 0, 0], [1, 1, 1, 1, 0, 0, 0, 0], [0] * 8)
    assert found.p == pytest.approx(0.4857, abs=0.03)


def test_stratum_ranks_give_wilcoxons_statistic():
    """Hollander and Wolfe's permeability: W 35 as a sum of ranks (n + 1 = 16, 10 values)."""
    values = [0.80, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46]
    values += [1.15, 0.88, 0.90, 0.74, 1.21]
    scores = stratum_ranks(values, [0] * 15)
    assert scores[:10].sum() * 16 - 10 * 11 / 2 == pytest.approx(35)
