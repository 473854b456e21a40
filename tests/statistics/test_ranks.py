"""Ranks and shrinking: edges, seeds and second opinions."""

import numpy as np
import pytest
from scipy.stats import f as f_distribution

from eol.statistics.ranks import ShrunkRates, rank_ranges, shrunk_rates


def test_draws_agree_with_the_exact_chance_of_two_codes():
    """The chance that 18 beats 11 is that of an F variable: within the error of 10,000 draws."""
    found = rank_ranges([18, 11], [1, 1])
    exact = f_distribution.cdf(18.5 / 11.5, 2 * 11.5, 2 * 18.5)
    assert found[0].first == pytest.approx(exact, abs=0.015)


def test_ranks_follow_the_rate_not_the_count():
    """Nine defects of 100 at risk rank before 20 of 10,000."""
    found = rank_ranges([20, 9], [10_000, 100])
    assert [(r.low, r.high) for r in found] == [(2, 2), (1, 1)]


def test_weights_turn_the_order():
    """By demerits one grave code can rank before many slight ones."""
    found = rank_ranges([40, 20], [400, 400], weights=[1, 100])
    assert [(r.low, r.high) for r in found] == [(2, 2), (1, 1)]


def test_the_same_page_twice_says_the_same():
    """Draws are seeded."""
    assert rank_ranges([5, 4, 3], [9, 9, 9]) == rank_ranges([5, 4, 3], [9, 9, 9])


def test_a_code_nobody_can_have_has_no_rank():
    """No unit at risk: no rate, no rank, and no place taken from the others."""
    found = rank_ranges([3, 0, 1], [100, 0, 100])
    assert found[1] is None
    assert max(found[0].high, found[2].high) <= 2
    assert shrunk_rates([3, 0, 1], [100, 0, 100]).rates[1] is None


@pytest.mark.parametrize("counts", [[], [4], [0, 0, 0]])
def test_short_and_empty_lists(counts):
    """No code, one code, no defect: rates as they are, ranks defined."""
    exposures = [50] * len(counts)
    rates = tuple(count / 50 for count in counts)
    assert shrunk_rates(counts, exposures) == ShrunkRates(rates, None, None)
    assert len(rank_ranges(counts, exposures)) == len(counts)


def test_shrinking_pulls_toward_the_mean_and_keeps_order_of_equals():
    """Equal exposures: the order stays, the spread falls."""
    counts = np.array([30, 12, 7, 3, 1, 0])
    found = np.array(shrunk_rates(counts, [400] * 6).rates)
    assert np.all(np.diff(found) < 0)
    assert found.std() < (counts / 400).std()


def test_codes_alike_are_shrunk_to_one_rate():
    """Less spread than chance gives: one common rate."""
    found = shrunk_rates([10, 11, 9, 10], [400] * 4)
    assert found.rates == pytest.approx([0.025] * 4, rel=1e-3)


def test_unequal_lists_are_refused():
    """One number of units at risk a code."""
    with pytest.raises(ValueError, match="units at risk a code"):
        rank_ranges([1, 2], [3])
