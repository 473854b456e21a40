"""Change points: edges and planted changes."""

import numpy as np
import pytest

from eol.statistics.changepoint import RankChange, ShareChange, change_of_share, pettitt


def test_a_fall_is_told_as_a_fall():
    """A clogging filter: pressure steps down after 30 readings."""
    rng = np.random.default_rng(41)
    values = np.append(rng.normal(250, 3, 30), rng.normal(228, 3, 25))
    found = pettitt(values)
    assert (found.last_before, found.direction) == (30, "down")
    assert found.p < 1e-4


@pytest.mark.parametrize("values", [[], [3.0]])
def test_too_few_readings_cannot_change(values):
    """One reading has no before and after."""
    assert pettitt(values) == RankChange(None, 0.0, 1.0, "none")


def test_equal_readings_do_not_change():
    """A constant condition is no change."""
    found = pettitt([5.0] * 20)
    assert (found.k, found.p, found.direction) == (0, 1, "none")


@pytest.mark.parametrize(
    ("flags", "share"), [([], None), ([1], 1.0), ([0] * 5, 0.0), ([1] * 5, 1.0)]
)
def test_units_all_alike_cannot_change(flags, share):
    """No unit, one unit, none bad, all bad: no change, the share as it is."""
    assert change_of_share(flags) == ShareChange(None, None, None, share, share, 0.0)


def test_range_holds_the_planted_change():
    """The 95 % range holds the true place in most of 60 planted changes."""
    rng = np.random.default_rng(42)
    held = 0
    for _ in range(60):
        found = change_of_share(np.append(rng.random(200) < 0.02, rng.random(200) < 0.2))
        held += found.low <= 200 <= found.high
    assert held >= 48


def test_what_is_no_flag_is_refused():
    """Counts are no flags."""
    with pytest.raises(ValueError, match="0 or 1"):
        change_of_share([0, 2])
