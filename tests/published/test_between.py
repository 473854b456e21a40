"""Units between defects against the formulas of the chart of conforming units."""

import pytest

from eol.statistics.between import chance_within, gap_limits, units_between


def test_gap_limits_are_those_of_the_chart_of_conforming_units():
    """ln(1-α/2)/ln(1-p) and ln(α/2)/ln(1-p): Calvin 1983, Goh 1987 (formula read, calculated)."""
    limits = gap_limits(0.0005, tail=0.025)
    assert (limits.low, limits.center, limits.high) == pytest.approx(
        (50.62, 1385.9, 7376), rel=1e-4
    )


def test_chance_within_is_the_birthday_of_a_die():
    """De Méré's game: a six in four throws has 671/1296 (printed in every textbook)."""
    assert chance_within(4, share=1 / 6) == pytest.approx(671 / 1296, abs=1e-12)
    assert chance_within(4, share=1 / 6, events=2) == pytest.approx(171 / 1296, abs=1e-12)


def test_units_between_signals_below_the_low_limit():
    """A gap signals exactly where it does not exceed Calvin's lower limit."""
    low = gap_limits(0.0005, tail=0.025).low
    gaps = units_between([0, 50, 101], share=0.0005, level=0.025)
    assert [gap.units for gap in gaps] == [50, 51]
    assert [gap.signal for gap in gaps] == [gap.units <= low for gap in gaps] == [True, False]
