"""Tabular CUSUM against the e-Handbook and Montgomery's table."""

import pytest

from eol.statistics.tabular import tabular_cusum, tabular_run_length

# NIST/SEMATECH e-Handbook 6.3.2.3: 20 means, target 325, k 0.3175, h 4.1959 (public domain, read).
MEANS = [324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6]
MEANS += [324.625, 325.15, 328.325, 327.25, 327.825, 328.5, 326.675, 327.775, 326.875, 328.35]
PRINTED_HIGH = [3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.00, 19.04]  # groups 13 to 20
PRINTED_LOW = {2: 0.01, 4: 0.33, 7: 0.56, 8: 0.72, 9: 0.17, 10: 0.25, 11: 0.31}


def test_tabular_cusum_matches_the_handbook():
    """Both printed columns of 20, to the half of their last digit; first signal at group 14."""
    found = tabular_cusum(MEANS, target=325, k=0.3175, h=4.1959)
    assert found.high[12:] == pytest.approx(PRINTED_HIGH, abs=6e-3)
    assert {i: found.low[i - 1] for i in PRINTED_LOW} == pytest.approx(PRINTED_LOW, abs=6e-3)
    assert (found.first_signal, found.direction) == (13, "up")


@pytest.mark.parametrize(
    ("h", "shift", "length"), [(4, 0, 168), (4, 1, 8.38), (5, 0, 465), (5, 1, 10.4)]
)
def test_tabular_run_length_matches_montgomery(h, shift, length):
    """D. C. Montgomery, "Introduction to Statistical Quality Control", Table 9.3 (from memory)."""
    assert tabular_run_length(shift, k=0.5, h=h) == pytest.approx(length, rel=5e-3)
