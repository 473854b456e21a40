"""Equal odds ratios: edges and a second opinion."""

import numpy as np
import pytest
from statsmodels.stats.contingency_tables import StratifiedTable

from eol.statistics.homogeneity import Homogeneity, breslow_day, woolf


def test_breslow_day_agrees_with_a_second_opinion():
    """Statsmodels gives the same statistic, without Tarone's correction."""
    tables = np.random.default_rng(8).integers(1, 40, size=(5, 2, 2))
    other = StratifiedTable(np.moveaxis(tables, 0, -1).astype(float)).test_equal_odds()
    found = breslow_day(tables)
    assert (found.chi2, found.p) == pytest.approx((other.statistic, other.pvalue), rel=1e-6)


@pytest.mark.parametrize("test", [breslow_day, woolf])
@pytest.mark.parametrize("tables", [[], [[[3, 9], [2, 8]]]])
def test_fewer_than_two_strata_cannot_differ(test, tables):
    """One stratum has one odds ratio."""
    assert test(tables) == Homogeneity(0.0, 1.0, len(tables))


@pytest.mark.parametrize("test", [breslow_day, woolf])
def test_empty_cells_give_no_nan(test):
    """Strata with a zero are ordinary where defects are rare."""
    found = test([[[0, 50], [5, 45]], [[5, 45], [1, 49]], [[2, 8], [0, 9]]])
    assert np.isfinite([found.chi2, found.p]).all()


def test_breslow_day_with_an_odds_ratio_of_one():
    """The quadratic vanishes at 1; the fitted cells must not."""
    found = breslow_day([[[10, 10], [10, 10]], [[5, 5], [5, 5]]])
    assert found.chi2 == pytest.approx(0, abs=1e-12)
