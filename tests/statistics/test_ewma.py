"""Drift of a condition: edges and planted drifts."""

import numpy as np
import pytest

from eol.statistics.ewma import Drift, drift_to_limit, ewma


def test_a_clogging_filter_is_foretold():
    """250 kPa falling 0.4 a run with noise: the runs to 220 are told within a fifth."""
    rng = np.random.default_rng(71)
    values = 250 - 0.4 * np.arange(40) + rng.normal(0, 1, 40)
    drift = drift_to_limit(values, lower=220, upper=280)
    assert (drift.direction, drift.limit) == ("down", 220)
    assert drift.runs_left == pytest.approx((250 - 0.4 * 39 - 220) / 0.4, rel=0.2)


def test_a_steady_condition_has_no_trend():
    """Noise alone is no drift."""
    drift = drift_to_limit(np.random.default_rng(72).normal(250, 3, 60), lower=220)
    assert (drift.direction, drift.runs_left) == ("none", None)


def test_constant_values_have_no_trend():
    """No spread at all: slope 0, no division by nothing."""
    assert drift_to_limit([250.0] * 20, lower=220) == Drift(250.0, 0.0, "none", None, None)


def test_beyond_the_limit_no_run_is_left():
    """The average has passed the limit."""
    assert drift_to_limit(220 - np.arange(20.0), lower=215).runs_left == 0


def test_drift_away_from_the_only_limit():
    """Rising with a lower limit only: a trend, no limit met."""
    drift = drift_to_limit(np.arange(20.0), lower=-5)
    assert (drift.direction, drift.limit, drift.runs_left) == ("up", None, None)


def test_no_reading_and_few():
    """No reading has no level; nine have no trend."""
    assert drift_to_limit([]) == Drift(None, None, "none", None, None)
    assert drift_to_limit([5.0] * 9).slope is None
    assert ewma([], target=1, sigma=1).signals == ()


def test_a_shift_signals():
    """Three sigma up: the average leaves its limits."""
    trace = ewma([0.0] * 5 + [3.0] * 5, target=0, sigma=1)
    assert trace.signals
    assert trace.signals[0] < 9


def test_a_weight_of_zero_is_refused():
    """An average that never learns."""
    with pytest.raises(ValueError, match="above 0"):
        ewma([1], target=0, sigma=1, weight=0)
