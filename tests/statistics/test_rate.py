"""Counts: edges, refusals, the issue's figures and second opinions."""

import numpy as np
import pytest
from statsmodels.stats.rates import test_poisson_2indep as poisson_2indep

from eol.statistics.interval import Interval
from eol.statistics.rate import RateRatio, dphu_interval, e_test, poisson_exact, rate_ratio


def test_dphu_interval_is_that_of_the_units_counts():
    """Rule 16: mean ± z s/√n over the units' defect counts, in hundreds."""
    counts = np.array([0] * 90 + [1] * 7 + [2] * 3)
    found = dphu_interval(100, int(counts.sum()), int((counts**2).sum()))
    half = 1.959963984540054 * counts.std(ddof=1) / 10
    assert found.value == pytest.approx(13)
    assert (found.low, found.high) == pytest.approx((13 - 100 * half, 13 + 100 * half))


def test_dphu_interval_is_clipped_at_zero():
    """One unit with all the defects would reach below zero."""
    assert dphu_interval(100, 9, 81).low == 0


def test_dphu_interval_of_no_unit_one_unit_and_no_defect():
    """Rule 16's edges: null, null ends, and 0 to 368.8879454/n."""
    assert dphu_interval(0, 0, 0) == Interval(0, None, None, None)
    assert dphu_interval(1, 2, 4) == Interval(1, 200, None, None)
    assert dphu_interval(1, 0, 0) == Interval(1, 0, 0, 368.8879454)
    assert dphu_interval(400, 0, 0) == Interval(400, 0, 0, 368.8879454 / 400)


def test_dphu_interval_where_every_unit_has_one_defect():
    """Equal counts have no spread: the interval is the figure itself."""
    assert dphu_interval(50, 50, 50) == Interval(50, 100, 100, 100)


@pytest.mark.parametrize("numbers", [(0, 1, 1), (5, 4, 2), (-1, 0, 0), (3, 6, 6)])
def test_dphu_interval_refuses_impossible_sums(numbers):
    """Sums that no set of units can have are the caller's mistake."""
    with pytest.raises(ValueError, match=r"unit|squares"):
        dphu_interval(*numbers)


def test_poisson_exact_without_exposure_is_none():
    """No unit at risk: no rate."""
    assert poisson_exact(0, 0) == Interval(0, None, None, None)


def test_rate_ratio_of_the_action_that_worked():
    """108/6,400 → 24/9,600: ratio 0.15 (0.09-0.23)."""
    found = rate_ratio((24, 9600), (108, 6400))
    assert [round(x, 2) for x in (found.ratio, found.low, found.high)] == [0.15, 0.09, 0.23]


def test_rate_ratio_of_the_action_that_did_not():
    """108/7,200 → 142/8,800: ratio 1.08, from 0.83 to 1.3947 by the exact conditional interval."""
    found = rate_ratio((142, 8800), (108, 7200))
    assert [round(x, 2) for x in (found.ratio, found.low)] == [1.08, 0.83]
    assert found.high == pytest.approx(1.3947, abs=5e-5)


def test_rate_ratio_without_counts():
    """Nothing counted tells nothing; a zero on one side leaves one end open."""
    assert rate_ratio((0, 10), (0, 20)) == RateRatio(None, 0.0, None, 1.0)
    gone, new = rate_ratio((0, 500), (9, 500)), rate_ratio((9, 500), (0, 500))
    assert (gone.ratio, gone.low) == (0, 0)
    assert gone.high < 1
    assert (new.ratio, new.high) == (None, None)
    assert new.low > 1


def test_rate_ratio_turns_over_with_its_arguments():
    """First against second is the reciprocal of second against first, with the same p."""
    one, two = rate_ratio((7, 300), (19, 410)), rate_ratio((19, 410), (7, 300))
    assert (one.low, one.high) == pytest.approx((1 / two.high, 1 / two.low))
    assert one.p == pytest.approx(two.p)


def test_rate_tests_agree_with_a_second_opinion():
    """Statsmodels' exact conditional test and its E-test give the same p-values."""
    exact = poisson_2indep(11, 800, 21, 3011, method="exact-cond").pvalue
    e_value = poisson_2indep(11, 800, 21, 3011, method="etest-wald").pvalue
    assert rate_ratio((11, 800), (21, 3011)).p == pytest.approx(exact, abs=1e-9)
    assert e_test((11, 800), (21, 3011)) == pytest.approx(e_value, abs=1e-9)


def test_e_test_of_nothing_is_one():
    """No defect in either period is no evidence of a change."""
    assert e_test((0, 10), (0, 900)) == 1


@pytest.mark.parametrize("test", [rate_ratio, e_test])
def test_rates_without_exposure_are_refused(test):
    """A rate over no units is the caller's mistake."""
    with pytest.raises(ValueError, match="exposures must be positive"):
        test((1, 0), (1, 10))
