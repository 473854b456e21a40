"""Control limits: short histories, edges, refusals."""

import pytest

from eol.statistics.limits import Limits, c_limits, p_limits, u_limits


def test_fewer_than_twelve_shifts_have_no_limits():
    """Eleven shifts give a center and no limits, whatever the figure: its place is unknown."""
    limits = p_limits([40] * 11, [400] * 11, size=400)
    assert limits == Limits(11, 0.1, None, None, None, "none")
    assert limits.place(0.9) == "unknown"
    assert c_limits([3] * 11).method == u_limits([3] * 11, [9] * 11, exposure=9).method == "none"


def test_no_baseline_at_all():
    """A new plant: no shift, no center, no limits."""
    assert p_limits([], [], size=400) == Limits(0, None, None, None, None, "none")


def test_shifts_without_units_are_left_out():
    """A cancelled shift is no shift of the baseline."""
    limits = u_limits([8] * 12 + [0], [400] * 12 + [0], exposure=400, prime=True)
    assert limits.shifts == 12


def test_a_shift_without_units_has_no_limits():
    """No unit in the shift asked about: nothing to compare."""
    assert p_limits([40] * 20, [400] * 20, size=0).method == "none"


@pytest.mark.parametrize("passed", [0, 400])
def test_all_failed_and_all_passed_are_defined(passed):
    """A history without any spread gives limits without NaN."""
    limits = p_limits([passed] * 20, [400] * 20, size=400, prime=True)
    assert limits.sigma_z is None
    assert limits.low == limits.high == limits.center == passed / 400


def test_a_value_on_a_limit_is_inside():
    """Only beyond a limit is a signal."""
    limits = c_limits([16] * 20)
    assert [limits.place(v) for v in (3, 4, 28, 29)] == ["below", "inside", "inside", "above"]


@pytest.mark.parametrize(("counts", "sizes"), [([5], [4]), ([-1], [4]), ([1, 2], [4])])
def test_impossible_series_are_refused(counts, sizes):
    """More failures than units, negative numbers and unequal lists are the caller's mistake."""
    with pytest.raises(ValueError, match=r"shift|negative"):
        p_limits(counts, sizes, size=4)
