"""Ranks: edges, ties and a second opinion."""

import numpy as np
import pytest
from scipy.stats import mannwhitneyu

from eol.statistics.mann_whitney import RankTest, mann_whitney


@pytest.mark.parametrize(
    ("m", "n", "method"), [(5, 9, "exact"), (3, 49, "exact"), (80, 600, "asymptotic")]
)
def test_agrees_with_scipy(m, n, method):
    """Exact at small counts without ties, normal at large ones: SciPy's values."""
    rng = np.random.default_rng(m)
    first, second = rng.random(m), rng.random(n) + 0.1
    other = mannwhitneyu(first, second, method=method)
    found = mann_whitney(first, second)
    assert (found.u, found.p) == pytest.approx((other.statistic, other.pvalue), rel=1e-9)


def test_ties_agree_with_scipy():
    """Set points repeat: equal values count half and narrow the variance."""
    rng = np.random.default_rng(2)
    first, second = rng.integers(0, 6, 40), rng.integers(0, 6, 300)
    other = mannwhitneyu(first, second, method="asymptotic")
    found = mann_whitney(first, second)
    assert (found.u, found.p) == pytest.approx((other.statistic, other.pvalue), rel=1e-9)


def test_nothing_to_compare():
    """No unit with the defect, or none without: p 1."""
    assert mann_whitney([], [1.0, 2.0]) == RankTest(0.0, None, 1.0)
    assert mann_whitney([1.0], []) == RankTest(0.0, None, 1.0)


def test_one_value_throughout():
    """A number that never differs tells nothing."""
    assert mann_whitney([5.0] * 3, [5.0] * 900) == RankTest(1350.0, 0.5, 1.0)


def test_a_missing_value_is_refused():
    """Units without a reading are left out by the caller, not ranked."""
    with pytest.raises(ValueError, match="must be numbers"):
        mann_whitney([float("nan")], [1.0])
