"""Units between defects: edges and a second opinion."""

import pytest
from scipy.stats import nbinom

from eol.statistics.between import chance_within, gap_limits, units_between


def test_one_defect_has_no_gap():
    """The first defect ever has none before it."""
    assert units_between([], share=0.001) == ()
    assert units_between([70], share=0.001) == ()


def test_chance_within_agrees_with_the_negative_binomial():
    """The gap to the r-th defect is negative binomial."""
    for units, events in [(10, 1), (500, 3), (3, 3), (2, 3)]:
        expected = nbinom.cdf(units - events, events, 0.01)
        assert chance_within(units, share=0.01, events=events) == pytest.approx(expected)


def test_three_quick_defects_signal_where_one_gap_does_not():
    """Looking back over three gaps finds a moderate rise."""
    places = [100, 130, 160, 190]
    assert not any(gap.signal for gap in units_between(places, share=0.0008))
    assert units_between(places, share=0.0008, events=3)[0].signal


def test_a_share_of_zero_signals_at_the_second_defect():
    """A code that never came has no usual gap: any gap is too soon."""
    assert units_between([5, 90_000], share=0.0)[0].signal


def test_positions_out_of_order_are_refused():
    """Positions come in build order."""
    with pytest.raises(ValueError, match="ascend"):
        units_between([5, 5], share=0.1)
    with pytest.raises(ValueError, match="between 0 and 1"):
        gap_limits(0)
