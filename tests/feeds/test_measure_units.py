"""Conversions that are and that cannot be."""

from __future__ import annotations

import polars as pl
import pytest
from feed_rows import STEADY
from hypothesis import given
from hypothesis import strategies as st

from eol.feeds.measure_units import conversion, known_units


def test_same_unit_changes_nothing() -> None:
    """A unit the tool does not know is still itself."""
    assert conversion("notch", "notch").of(7.25) == 7.25


def test_unlike_quantities() -> None:
    """A pressure never becomes a length."""
    with pytest.raises(ValueError, match="bar measures pressure and mm measures length"):
        conversion("bar", "mm")


def test_unknown_unit_names_the_nearest() -> None:
    """A slip of the pen is answered with the right unit."""
    with pytest.raises(ValueError, match=r"'kPaa' is no measure unit .* nearest right one is kPa"):
        conversion("kPaa", "bar")


@pytest.mark.parametrize("unit", known_units())
def test_there_and_back(unit: str) -> None:
    """Every known unit turns into its quantity's others and back."""
    others = [other for other in known_units() if _fits(unit, other)]
    assert unit in others
    for other in others:
        there = conversion(unit, other).of(3.5)
        assert conversion(other, unit).of(there) == pytest.approx(3.5, rel=1e-12)


@STEADY
@given(st.floats(-1e6, 1e6))
def test_column_equals_cell(reading: float) -> None:
    """A column is turned as its cells are, but for the last digit; null stays null."""
    how = conversion("°F", "°C")
    frame = pl.DataFrame({"reading": [reading, None]})
    turned = frame.select(how.of_column(pl.col("reading"))).to_series().to_list()
    assert turned == [pytest.approx(how.of(reading), rel=1e-14), None]


def _fits(unit: str, other: str) -> bool:
    try:
        conversion(unit, other)
    except ValueError:
        return False
    return True


def test_reading_at_its_limit_stays_there() -> None:
    """2.3 bar are 230 kPa, not the next number below, which would be under a limit of 230."""
    how = conversion("bar", "kPa")
    assert how.of(2.3) == 230
    readings = pl.DataFrame({"reading": [2.3, -2.3, 0.0, None]})
    assert readings.select(how.of_column(pl.col("reading"))).to_series().to_list() == [
        230,
        -230,
        0,
        None,
    ]
