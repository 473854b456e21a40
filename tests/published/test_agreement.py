"""Agreement against encyclopedia examples and Agresti's table."""

import pytest

from eol.statistics.agreement import cohen_kappa, fleiss_kappa, mcnemar

# 14 evaluators, 10 subjects, 5 categories: the encyclopedia's table after Fleiss 1971, as in the
# tests of statsmodels (read there).
RATINGS = [
    [0, 0, 0, 0, 14],
    [0, 2, 6, 4, 2],
    [0, 0, 3, 5, 6],
    [0, 3, 9, 2, 0],
    [2, 2, 8, 1, 1],
    [7, 7, 0, 0, 0],
    [3, 2, 6, 3, 0],
    [2, 5, 3, 2, 2],
    [6, 5, 2, 1, 0],
    [0, 2, 2, 3, 7],
]


def test_cohen_kappa_of_two_readers():
    """50 proposals: agreement 0.7, by chance 0.5, kappa 0.4 (encyclopedia, from memory)."""
    found = cohen_kappa([[20, 5], [10, 15]])
    assert (found.kappa, found.observed, found.expected) == pytest.approx((0.4, 0.7, 0.5), abs=1e-9)


def test_fleiss_kappa_of_fourteen_evaluators():
    """Kappa 0.210."""
    assert fleiss_kappa(RATINGS).kappa == pytest.approx(0.210, abs=5e-4)


def test_mcnemar_of_the_approval_ratings():
    """A. Agresti, "Categorical Data Analysis", 1990, page 350: 86 and 150 changed (table read).

    The statistics follow from the formula: 17.3559, corrected 16.8178.
    """
    found = mcnemar(86, 150)
    assert (found.chi2, found.chi2_corrected) == pytest.approx((17.3559322, 16.8177966), abs=1e-6)
    assert found.p == pytest.approx(4.11456228135e-05, rel=1e-6)
