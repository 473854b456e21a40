"""Shrunk rates against the pump data, rank ranges against a worked list."""

import pytest

from eol.statistics.ranks import rank_ranges, shrunk_rates

# D. P. Gaver and I. G. O'Muircheartaigh, Technometrics 29 (1987), pages 1-15: failures and
# thousands of hours of ten pumps (from memory; reprinted in most texts on hierarchical models).
FAILURES = [5, 1, 5, 14, 3, 19, 1, 1, 4, 22]
HOURS = [94.32, 15.72, 62.88, 125.76, 5.24, 31.44, 1.048, 1.048, 2.096, 10.48]


def test_shrunk_rates_of_the_pumps():
    """Greatest likelihood at alpha 0.82, beta 1.26.

    E. I. George, U. E. Makov and A. F. M. Smith, Scandinavian Journal of Statistics 20 (1993),
    pages 147-156 (from memory, reproduced).
    """
    found = shrunk_rates(FAILURES, HOURS)
    assert (found.alpha, found.beta) == pytest.approx((0.822, 1.259), abs=1e-3)
    assert found.rates[0] == pytest.approx((5 + 0.822) / (94.32 + 1.259), rel=1e-4)


def test_rank_ranges_of_six_codes():
    """18 11 8 4 2 0 on equal units: 1-2 1-3 2-4 3-5 4-6 5-6 (calculated for this project)."""
    found = rank_ranges([18, 11, 8, 4, 2, 0], [1600] * 6)
    ranges = [(rank.low, rank.high) for rank in found]
    assert ranges == [(1, 2), (1, 3), (2, 4), (3, 5), (4, 6), (5, 6)]
