"""The usual range against the published series it must not contradict."""

import pytest
from scipy.stats import norm

from eol.statistics.usual import TAIL, usual_rate, usual_share

# K. Ishikawa, "Guide to Quality Control", pages 77-79 (as in test_limits.py).
FAULTY = [14, 19, 19, 24, 15, 16, 38, 40, 21, 32, 40, 25, 39, 36, 17, 19, 4, 9, 12, 26]
SIZES = [125, 200, 188, 200, 200, 250, 390, 360, 250, 250, 395, 300, 310, 200, 300, 185, 55, 90]
SIZES += [130, 300]
# L. von Bortkiewicz, "Das Gesetz der kleinen Zahlen", 1898: deaths in corps XIV, 1875-1894
# (data set HorseKicks' source VonBort, from memory: 24 in 20 years).
CORPS_XIV = [1, 1, 2, 1, 1, 3, 0, 4, 0, 1, 0, 3, 2, 1, 0, 2, 1, 1, 0, 0]


def test_usual_share_is_laneys_where_counts_are_large():
    """Sigma z of Ishikawa's series is above 1: the p′ limit 0.18687 of Laney's formula."""
    limits = usual_share(FAULTY, SIZES, size=200)
    assert limits.method == "p′"
    assert limits.high == pytest.approx(0.186871734672, abs=1e-6)


def test_tail_is_that_of_three_sigma():
    """The exact limits are beyond as seldom as three sigma: run length 370.4, Montgomery."""
    assert pytest.approx(norm.sf(3), rel=1e-12) == TAIL
    assert pytest.approx(370.4, abs=0.05) == 1 / (2 * TAIL)


def test_usual_rate_holds_every_year_of_the_horse_kicks():
    """A series known as Poisson has no year beyond its exact limits."""
    limits = usual_rate(CORPS_XIV, [1] * 20, exposure=1)
    assert limits.method == "exact"
    assert all(limits.place(count) == "inside" for count in CORPS_XIV)
