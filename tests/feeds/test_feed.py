"""Which feed a file belongs to, and what its rows are read by."""

from __future__ import annotations

from pathlib import Path

import pytest
from feed_rows import plant

from eol.errors import FeedFileError
from eol.feeds.feed import feed_of, open_feed

MAPPED = """
[feed.water]
files = "WT_*.csv"
timezone = "+01:00"
[feed.water_readings]
files = "WT_R_*.csv"
"""


@pytest.mark.parametrize(
    ("name", "feed"),
    [
        ("water_2026.parquet", "water"),
        ("Water_2026.CSV", "water"),
        ("water_readings_7.csv", "water_readings"),
        ("water_findings.csv", "water_findings"),
        ("units.csv.gz", "units"),
        ("unit_keys.csv", "unit_keys"),
        ("WT_7.csv", "water"),
        ("WT_7.csv.gz", "water"),
        ("WT_R_7.csv", "water_readings"),
    ],
)
def test_feed_of_a_name(name: str, feed: str) -> None:
    """The closest pattern decides, else the longest feed name that the file's name begins with."""
    assert feed_of(Path(name), plant(MAPPED)) == feed


def test_file_of_no_feed() -> None:
    """The error lists the feeds there are."""
    with pytest.raises(FeedFileError, match=r"(?s)belongs to no feed.*water, water_findings"):
        feed_of(Path("paint.csv"), plant())


def test_no_such_feed() -> None:
    """The nearest feed is named."""
    with pytest.raises(FeedFileError, match=r"(?s)no feed named 'watr'.*nearest is water"):
        open_feed("watr", plant())


def test_kind_and_test_of_a_feed() -> None:
    """A test's feeds carry its name; fixed feeds have none."""
    readings, units = open_feed("water_readings", plant()), open_feed("units", plant())
    assert (readings.kind, readings.test) == ("readings", "water")
    assert (units.kind, units.test) == ("units", None)


def test_mapping_is_for_the_files_of_its_pattern() -> None:
    """A file in the tool's own columns is not read by the mapping of others."""
    settings = plant(MAPPED)
    assert open_feed("water", settings, path=Path("WT_1.csv")).zone == "+01:00"
    assert open_feed("water", settings, path=Path("water.csv")).zone == "Europe/Berlin"
    assert open_feed("water", settings).zone == "+01:00"


def test_conditions_are_columns_of_their_test() -> None:
    """A declared condition is a column of its test's own feed, in its declared unit."""
    feed = open_feed("water", plant())
    assert "pressure_kpa" in [column.name for column in feed.columns]
    assert feed.conditions == {"pressure_kpa": "kPa"}


def test_unit_key_stands_in_for_the_vin() -> None:
    """Where a unit key names the units, the VIN may be missing."""
    feed = open_feed("water", plant('[feed.water]\nnamed_by = "skid"\n'))
    required = {column.name: column.required for column in feed.columns}
    assert feed.key_kind == "skid"
    assert required["vin"] is False
    assert required["skid"] is False
