"""Exact comparison of shares against printed p-values."""

import pytest

from eol.statistics.fisher import fisher, fisher_within


def test_fisher_of_the_tea_tasting():
    """3 of 4 against 1 of 4: R. A. Fisher, "The Design of Experiments", 1935, chapter 2 (R, read).

    Two-sided 0.4857, one-sided 0.2429, sample odds ratio 9.
    """
    found = fisher((3, 4), (1, 4))
    assert (found.p, found.p_more) == pytest.approx((0.4857, 0.2429), abs=1e-4)
    assert found.odds_ratio == 9


def test_fisher_of_scipys_example():
    """8 of 10 against 1 of 6: documentation of scipy.stats.fisher_exact (read)."""
    found = fisher((8, 10), (1, 6))
    assert found.p == pytest.approx(0.034965034965034975, abs=1e-12)
    assert found.odds_ratio == 20


def test_fisher_within_one_stratum_is_fisher():
    """The tea tasting again: one stratum is the plain test."""
    assert fisher_within([[[3, 1], [1, 3]]]).p == pytest.approx(0.4857, abs=1e-4)
