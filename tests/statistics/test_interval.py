"""What the statistics share."""

import pytest

from eol.statistics.interval import Z95, Interval, quantile, require


def test_quantile_of_95_percent_is_the_one_of_rule_16():
    """Facts and views must use the same z to the last digit."""
    assert quantile(0.95) == Z95 == 1.959963984540054


def test_quantile_agrees_with_the_normal_distribution():
    """The other confidences come from the same distribution."""
    assert quantile(0.95 + 1e-15) == pytest.approx(Z95, abs=1e-12)
    assert quantile(0.90) == pytest.approx(1.6448536269514722, abs=1e-12)


def test_an_open_end_holds_everything():
    """An interval without a bound on one side holds all values of that side."""
    assert Interval(3, 0.5, 0.1, None).holds(9e9)
    assert not Interval(3, 0.5, 0.1, None).holds(0.05)


def test_require_refuses_with_a_sentence():
    """A caller's mistake is told in words."""
    with pytest.raises(ValueError, match="units cannot be negative"):
        require(False, "units cannot be negative")
