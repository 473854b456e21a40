"""Which shift the page is of, and whether its data are in."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from made_up_shift import header


def test_complete_when_every_station_was_heard_from() -> None:
    """A station that is silent since the shift's end leaves the page provisional."""
    assert header().complete
    assert not header(heard=False).complete
    assert [station.station for station in header(heard=False).silent] == ["W1"]


def test_no_station_is_not_complete() -> None:
    """A missing record is not a pass: a shift that no station ran in is not complete."""
    assert not replace(header(), stations=()).complete


def test_running_until_the_data_clock_reaches_the_end() -> None:
    """A shift runs while the newest data are older than its end."""
    assert replace(header(), data_clock=datetime(2026, 9, 18, 11, 0)).running
    assert not header().running
