"""The empirical-Bayes method against the tutorial of Hauer and others."""

import pytest

from eol.statistics.before_after import before_after, expected_count


def test_expected_count_of_the_road_segment():
    """4.71 ± 1.19 accidents a km and year.

    E. Hauer and others, Transportation Research Record 1784 (2002), pages 126-131, example 1
    (result read; inputs from memory, reproduced). 1.8 km, 12 accidents in one year, its like 2.41 a
    km, dispersion 2.05 a km.
    """
    mean = 2.41 * 1.8
    found = expected_count(12, mean=mean, variance=mean**2 / (2.05 * 1.8))
    assert found.weight == pytest.approx(0.46, abs=0.005)
    assert (found.value / 1.8, found.sigma / 1.8) == pytest.approx((4.71, 1.19), abs=0.005)


def test_before_after_follows_the_four_steps():
    """Hauer 1997, equations 6.1 to 6.4, by hand for the segment with 6 accidents in two years."""
    found = before_after((6, 36), (12, 18), mean_rate=0.241, rate_variance=0.241**2 / 3.69)
    foretold, spread = 2 * 8.4786, (2 * 2.1398 / (2 * 8.4786)) ** 2
    ratio = 6 / foretold / (1 + spread)
    sigma = 6 / foretold * (1 / 6 + spread) ** 0.5 / (1 + spread)
    assert found.ratio == pytest.approx(ratio, abs=1e-3)
    assert (found.low, found.high) == pytest.approx(
        (max(0, ratio - 1.96 * sigma), ratio + 1.96 * sigma), abs=1e-3
    )
