"""Readings in the declared measure units."""

from __future__ import annotations

import pytest
from feed_rows import VIN, parsed, reasons

from eol.errors import FeedFileError

START = "2026-09-08 06:00"


def reading(line: str, more: str = "") -> tuple[float, float | None, str | None]:
    """Value, upper limit and unit of one long reading."""
    text = f"vin,station,started_at,name,value,upper,measure_unit\n{VIN},W1,{START},{line}"
    table = parsed("water_readings", text, more).tables["reading"]
    return table.select("value", "upper", "measure_unit").row(0)


def test_condition_is_turned_into_its_declared_unit() -> None:
    """2.5 bar are 250 kPa, and so are the limits beside it."""
    assert reading("pressure_kpa,2.5,2.8,bar") == (250, pytest.approx(280), "kPa")


def test_condition_without_a_unit_is_in_the_declared_one() -> None:
    """Nothing is turned where nothing is said."""
    assert reading("pressure_kpa,250,,") == (250, None, "kPa")


def test_unit_of_the_feed() -> None:
    """The feed's measure_units say what its files hold; a row's own unit goes first."""
    more = '[feed.water_readings]\nmeasure_units = { pressure_kpa = "bar", volts = "mV" }\n'
    assert reading("pressure_kpa,2.5,,", more) == (250, None, "kPa")
    assert reading("pressure_kpa,250,,kPa", more) == (250, None, "kPa")
    assert reading("volts,12,,", more) == (12, None, "mV")


def test_other_readings_keep_their_unit() -> None:
    """A reading without declared unit stays in the one it came in."""
    assert reading("volts,12,,V") == (12, None, "V")


def test_unit_that_cannot_be_turned() -> None:
    """A pressure in volts is refused."""
    text = f"vin,station,started_at,name,value,measure_unit\n{VIN},W1,{START},pressure_kpa,2,V"
    assert reasons(parsed("water_readings", text)) == [
        "measure_unit: V measures voltage and kPa measures pressure; no factor turns one into the other"
    ]


def test_condition_column_of_a_test() -> None:
    """The column of a test's own feed is turned too."""
    text = f"vin,station,started_at,result,pressure_kpa\n{VIN},W1,{START},pass,2.5"
    more = '[feed.water]\nmeasure_units = { pressure_kpa = "bar" }\n'
    table = parsed("water", text, more).tables["reading"]
    assert table.select("value", "measure_unit").rows() == [(250, "kPa")]


def test_wrong_unit_in_plant_toml() -> None:
    """A mapping that cannot work is an error that names its key."""
    text = f"vin,station,started_at,result,pressure_kpa\n{VIN},W1,{START},pass,2.5"
    more = '[feed.water]\nmeasure_units = { pressure_kpa = "mm" }\n'
    with pytest.raises(
        FeedFileError, match=r"feed\.water\.measure_units\.pressure_kpa: mm measures"
    ):
        parsed("water", text, more)
