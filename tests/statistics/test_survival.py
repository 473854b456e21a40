"""Waiting times: the worked example, edges and a second opinion."""

import numpy as np
import pytest
from statsmodels.duration.survfunc import SurvfuncRight

from eol.statistics.survival import kaplan_meier


def test_minutes_with_open_units():
    """22 35 41 41+ 60 95 120+ 180+: median 60 minutes."""
    found = kaplan_meier([22, 35, 41, 41, 60, 95, 120, 180], [1, 1, 1, 0, 1, 1, 0, 0])
    assert found.median == 60
    assert (found.ended, found.open) == (5, 3)


def test_agrees_with_a_second_opinion():
    """Statsmodels gives the same curve."""
    rng = np.random.default_rng(61)
    times, ended = rng.integers(1, 40, 90), rng.random(90) < 0.7
    other = SurvfuncRight(times.astype(float), ended.astype(int))
    found = kaplan_meier(times, ended)
    assert found.times == tuple(other.surv_times)
    assert found.waiting == pytest.approx(other.surv_prob)


def test_nobody_waited():
    """No unit: an empty curve."""
    found = kaplan_meier([], [])
    assert (found.times, found.median, found.ended, found.open) == ((), None, 0, 0)


def test_all_still_wait():
    """No end yet: no median, never a guess."""
    found = kaplan_meier([5, 9], [0, 0])
    assert (found.median, found.median_high, found.open) == (None, None, 2)


@pytest.mark.parametrize("minutes", [[30], [30, 30, 30]])
def test_one_unit_and_equal_times(minutes):
    """One time only: the curve falls to 0 there, without NaN."""
    found = kaplan_meier(minutes, [1] * len(minutes))
    assert (found.median, found.waiting, found.high) == (30, (0.0,), (0.0,))


def test_half_is_reached_exactly():
    """Two of four clear: the median is the second one's time, whatever the rounding."""
    assert kaplan_meier([1, 2, 3, 4], [1, 1, 1, 1]).median == 2


def test_median_interval_holds_the_median():
    """The ends lie around it."""
    found = kaplan_meier(np.arange(1, 60), np.ones(59))
    assert found.median_low <= found.median <= found.median_high


def test_a_negative_wait_is_refused():
    """Clear before failed is the caller's mistake."""
    with pytest.raises(ValueError, match="from 0 on"):
        kaplan_meier([-1], [1])
