"""Change points against Pettitt's table and an invented sequence."""

import pytest

from eol.statistics.changepoint import change_of_share, pettitt

# A. N. Pettitt, Applied Statistics 28 (1979), pages 126-135, Table 1 (read): 40 values.
TABLE_1 = [-1.05, 0.96, 1.22, 0.58, -0.98, -0.03, -1.54, -0.71, -0.35, 0.66, 0.44, 0.91, -0.02]
TABLE_1 += [-1.42, 1.26, -1.02, -0.81, 1.66, 1.05, 0.97, 2.14, 1.22, -0.24, 1.6, 0.72, -0.12, 0.44]
TABLE_1 += [0.03, 0.66, 0.56, 1.37, 1.66, 0.1, 0.8, 1.29, 0.49, -0.07, 1.18, 3.29, 1.84]


def test_pettitt_of_his_own_table():
    """K = 232 at 17, p = 0.0146, upward."""
    found = pettitt(TABLE_1)
    assert (found.k, found.last_before, found.direction) == (232, 17, "up")
    assert found.p == pytest.approx(0.0146, abs=1e-4)


def test_change_of_share_in_a_sequence_of_100():
    """16 of 100, invented; D. V. Hinkley and E. A. Hinkley 1970's method, calculated.

    Last unit before the change 60, range 55 to 62; 0.0333 before, 0.35 after.
    """
    bad = {9, 34, 61, 63, 66, 67, 71, 72, 75, 79, 80, 84, 88, 90, 91, 97}
    found = change_of_share([unit in bad for unit in range(1, 101)])
    assert (found.last_before, found.low, found.high) == (60, 55, 62)
    assert (found.share_before, found.share_after) == pytest.approx((1 / 30, 0.35))
    assert found.likelihood_ratio == pytest.approx(18.6008752365, abs=1e-6)
