"""Factors that go together: edges and a second opinion."""

import numpy as np
import pytest
from scipy.stats.contingency import association

from eol.statistics.together import cramers_v, group_factors


def test_agrees_with_scipy():
    """SciPy's association gives the same V, unused codes left out."""
    rng = np.random.default_rng(91)
    one, two = rng.integers(0, 4, 300), rng.integers(0, 3, 300)
    table = np.histogram2d(one, two, bins=(4, 3))[0].astype(int)
    assert cramers_v(one, two) == pytest.approx(association(table, method="cramer"))
    assert cramers_v(one * 5, two) == pytest.approx(cramers_v(one, two))


def test_a_factor_that_every_unit_has_goes_with_none():
    """One level tells nothing; no unit neither."""
    assert cramers_v([0, 0, 0], [0, 1, 2]) == 0
    assert cramers_v([], []) == 0


def test_no_factor_and_one():
    """No factor has no group; one is its own."""
    assert group_factors([]) == ()
    assert group_factors([[1.0]]) == ((0,),)


def test_wrong_tables_are_refused():
    """A square table, and one level a unit."""
    with pytest.raises(ValueError, match="square"):
        group_factors([[1.0, 0.5]])
    with pytest.raises(ValueError, match="one level"):
        cramers_v([0], [0, 1])
