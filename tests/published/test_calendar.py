"""Shift lengths and instants over clock changes; source: IANA tz database (tzdata 2026.6)."""

from datetime import UTC, date, datetime, timedelta

import pytest

from eol.plant.calendar import shift_windows
from eol.plant.clock import time_zone, to_utc
from eol.plant.settings import parse_settings

PLANT = """
[plant]
name = "Quillbrook"
timezone = "{zone}"
starts_on = 2025-01-01
[[shift]]
name = "night"
starts = "22:00"
ends = "06:00"
[test.water]
"""


@pytest.mark.parametrize(
    ("zone", "day", "starts", "ends", "hours"),
    [
        ("Europe/Berlin", "2025-03-29", "2025-03-29T21:00Z", "2025-03-30T04:00Z", 7),
        ("Europe/Berlin", "2025-10-25", "2025-10-25T20:00Z", "2025-10-26T05:00Z", 9),
        ("Europe/Berlin", "2026-03-28", "2026-03-28T21:00Z", "2026-03-29T04:00Z", 7),
        ("Europe/Berlin", "2026-10-24", "2026-10-24T20:00Z", "2026-10-25T05:00Z", 9),
        ("America/New_York", "2026-03-07", "2026-03-08T03:00Z", "2026-03-08T10:00Z", 7),
    ],
)
def test_a_night_shift_over_a_clock_change(
    zone: str, day: str, starts: str, ends: str, hours: int
) -> None:
    """The window is as long as the night was, not as the wall clock shows."""
    night = date.fromisoformat(day)
    (window,) = shift_windows(parse_settings(PLANT.format(zone=zone)), night, night)
    assert window.starts_at == datetime.fromisoformat(starts)
    assert window.ends_at == datetime.fromisoformat(ends)
    assert window.ends_at - window.starts_at == timedelta(hours=hours)


def test_a_local_time_that_happens_twice() -> None:
    """2025-10-26 02:30 in Berlin is 00:30Z and 01:30Z; a boundary there is the first."""
    wall, zone = datetime(2025, 10, 26, 2, 30), time_zone("Europe/Berlin")
    second = wall.replace(tzinfo=zone, fold=1).astimezone(UTC)
    assert to_utc(wall, zone) == datetime(2025, 10, 26, 0, 30, tzinfo=UTC)
    assert second == datetime(2025, 10, 26, 1, 30, tzinfo=UTC)


def test_a_local_time_that_never_happens() -> None:
    """On 2025-03-30 Berlin's clocks go from 02:00 to 03:00 at 01:00Z: a boundary there is it."""
    wall = datetime(2025, 3, 30, 2, 30)
    assert to_utc(wall, time_zone("Europe/Berlin")) == datetime(2025, 3, 30, 1, tzinfo=UTC)
