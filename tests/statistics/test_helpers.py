"""Steps that several methods share."""

import numpy as np
import pytest
from scipy.stats import binomtest, chi2

from eol.statistics.helpers import binomial_p, chi2_p, clean_series, draw_places, informative


@pytest.mark.parametrize(("units", "chosen"), [(1000, 3), (10, 7), (5, 5), (4, 0)])
def test_drawn_places_differ_and_cover_all_units(units, chosen):
    """Each draw is a set, each unit as likely as any other."""
    places = draw_places(np.random.default_rng(1), units=units, chosen=chosen, draws=400)
    assert places.shape == (400, chosen)
    assert all(len(set(row)) == chosen for row in places.tolist())
    assert not chosen or 0 <= places.min() <= places.max() < units


@pytest.mark.parametrize(
    ("count", "n", "share"), [(3, 11, 0.2), (0, 5, 0.5), (7, 7, 0.9), (0, 0, 0.3)]
)
def test_binomial_p_agrees_with_scipy(count, n, share):
    """Two-sided by likelihood, as R and SciPy have it."""
    expected = binomtest(count, n, share).pvalue if n else 1.0
    assert binomial_p(count, n, share) == pytest.approx(expected)


def test_chi2_p_agrees_with_scipy():
    """The upper tail; without freedom nothing can be told."""
    assert chi2_p(7.3, 3) == pytest.approx(chi2.sf(7.3, 3))
    assert chi2_p(5.0, 0) == 1


def test_informative_drops_strata_that_cannot_tell():
    """Only the first has both kinds of units and both outcomes."""
    tables = [[[1, 4], [2, 7]], [[0, 4], [0, 7]], [[1, 4], [0, 0]]]
    assert informative(tables).tolist() == [tables[0]]


def test_clean_series_drops_shifts_without_units():
    """A shift of exposure 0 is no shift of the series."""
    count, exposure = clean_series([1, 0, 2], [5, 0, 6])
    assert (count.tolist(), exposure.tolist()) == ([1, 2], [5, 6])
