"""Agreement: edges and second opinions."""

import numpy as np
import pytest
from statsmodels.stats.contingency_tables import mcnemar as other_mcnemar
from statsmodels.stats.inter_rater import cohens_kappa

from eol.statistics.agreement import Agreement, PairedChange, cohen_kappa, fleiss_kappa, mcnemar


def test_cohen_agrees_with_a_second_opinion():
    """Statsmodels gives the same kappa and interval."""
    table = np.array([[40, 3, 2], [5, 30, 4], [1, 6, 20]])
    other = cohens_kappa(table)
    found = cohen_kappa(table)
    assert (found.kappa, found.low, found.high) == pytest.approx(
        (other.kappa, other.kappa_low, other.kappa_upp), rel=1e-9
    )


def test_no_unit_looked_at_twice():
    """No double evaluation: no kappa, said by None."""
    nothing = Agreement(None, None, None, None, None, 0)
    assert cohen_kappa([[0, 0], [0, 0]]) == fleiss_kappa([]) == nothing


def test_one_verdict_throughout_has_no_kappa():
    """All passed twice: agreement is all, but chance gives as much."""
    assert cohen_kappa([[9, 0], [0, 0]]) == Agreement(None, None, None, 1.0, 1.0, 9)
    assert fleiss_kappa([[2, 0], [2, 0]]).kappa is None


def test_perfect_agreement():
    """Both ends stay within 1."""
    found = cohen_kappa([[5, 0], [0, 7]])
    assert (found.kappa, found.high) == (1, 1)


def test_mcnemar_agrees_with_a_second_opinion():
    """Exact and corrected, as statsmodels has them."""
    table = [[30, 5], [12, 40]]
    assert mcnemar(5, 12).p_exact == pytest.approx(other_mcnemar(table, exact=True).pvalue)
    assert mcnemar(5, 12).p == pytest.approx(other_mcnemar(table, exact=False).pvalue)


def test_nobody_changed():
    """Two looks that never differ."""
    assert mcnemar(0, 0) == PairedChange(0.0, 0.0, 1.0, 1.0)


def test_unequal_numbers_of_looks_are_refused():
    """Fleiss needs equally many looks a unit."""
    with pytest.raises(ValueError, match="equally many looks"):
        fleiss_kappa([[2, 0], [3, 0]])
