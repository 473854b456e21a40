"""Ranks against the example of Hollander and Wolfe."""

import pytest

from eol.statistics.mann_whitney import mann_whitney

# M. Hollander and D. A. Wolfe, "Nonparametric Statistical Methods", 1973, pages 69-70: permeability
# at term and at 12 to 26 weeks, as in R's help of wilcox.test (from memory, reproduced).
AT_TERM = [0.80, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46]
EARLIER = [1.15, 0.88, 0.90, 0.74, 1.21]


def test_mann_whitney_of_the_permeability():
    """W = 35, one-sided p 0.1272: two-sided twice that, exact."""
    found = mann_whitney(AT_TERM, EARLIER)
    assert found.u == 35
    assert found.p == pytest.approx(2 * 0.1272, abs=1e-4)
    assert found.auc == 0.7
