"""Exact tests: edges, the bays of the brief, second opinions."""

import numpy as np
import pytest
from scipy.stats import fisher_exact

from eol.statistics.fisher import ExactWithin, fisher, fisher_within


def test_the_bay_that_is_too_good():
    """11 of 1,022 against 57 of 2,178: ratio 0.41, p 0.0037."""
    found = fisher((11, 1022), (57, 2178))
    assert (round(found.ratio, 2), round(found.p, 4)) == (0.41, 0.0037)
    assert found.p_fewer < 0.0037 < found.p_more


@pytest.mark.parametrize("table", [[[8, 2], [1, 5]], [[0, 9], [3, 4]], [[5, 0], [5, 0]]])
def test_fisher_agrees_with_scipy(table):
    """The same three p-values."""
    (a, b), (c, d) = table
    found = fisher((a, a + b), (c, c + d))
    for alternative, p in (
        ("two-sided", found.p),
        ("greater", found.p_more),
        ("less", found.p_fewer),
    ):
        assert p == pytest.approx(fisher_exact(table, alternative=alternative).pvalue, abs=1e-12)


@pytest.mark.parametrize(
    ("first", "second"), [((0, 0), (3, 9)), ((0, 5), (0, 9)), ((0, 0), (0, 0))]
)
def test_nothing_to_compare(first, second):
    """No unit or no defect: p 1, no ratio that needs one."""
    found = fisher(first, second)
    assert found.p == pytest.approx(1)
    assert found.odds_ratio is None


def test_fisher_within_agrees_with_a_plain_enumeration():
    """All outcomes of two strata multiplied out by hand."""
    tables = [[[2, 3], [1, 6]], [[1, 2], [0, 4]]]
    one = [fisher((k, 5), (3 - k, 7)) for k in range(4)]
    two = [fisher((k, 3), (1 - k, 4)) for k in range(2)]
    more = [r.p_more for r in one] + [0.0], [r.p_more for r in two] + [0.0]
    chance = [np.array(p[:-1]) - np.array(p[1:]) for p in more]
    joint = np.convolve(*chance)
    found = fisher_within(tables)
    assert found.observed == 3
    assert found.p_more == pytest.approx(joint[3:].sum())


def test_fisher_within_of_no_stratum_and_of_silent_ones():
    """Strata without defects, or with one kind of units alone, add nothing."""
    assert fisher_within([]) == ExactWithin(0, 0.0, 1.0, 1.0, 1.0)
    silent = fisher_within([[[0, 5], [0, 9]], [[3, 4], [0, 0]]])
    assert silent.p == pytest.approx(1)
    assert silent.expected == pytest.approx(silent.observed)


def test_more_defects_than_units_are_refused():
    """Units with the defect are units."""
    with pytest.raises(ValueError, match="are units"):
        fisher((5, 4), (0, 1))
