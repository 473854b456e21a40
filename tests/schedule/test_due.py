"""Which reports are due: by the calendar, with overtime, cancelled shifts and clock changes."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, timedelta

import builders as b
import polars as pl
from mail_plants import at

from eol.plant.settings import Settings, parse_settings
from eol.schedule.due import due_shifts

Window = tuple[date, str, datetime, bool]
DAY = b.TUESDAY


class Copy:
    """A copy with the given calendar rows and reports; all else plant.toml gives."""

    def __init__(
        self, left: Iterable[tuple[date, str]] = (), windows: Iterable[Window] = ()
    ) -> None:
        self.left, self.windows = list(left), list(windows)

    def run(self, folder: str, name: str, /, **values: object) -> pl.DataFrame:
        """Answer the three queries of due.py."""
        if name == "first_report":
            return pl.DataFrame({"first_date": [min((day for day, _ in self.left), default=None)]})
        if name == "reports":
            rows = [(*key, 1, "<id>", at("00:00")) for key in self.left]
            names = ["production_date", "shift", "letters", "message_id", "made_at"]
            return pl.DataFrame(rows, schema=names, orient="row")
        names = ["production_date", "shift", "ends_at", "cancelled"]
        return pl.DataFrame(self.windows, schema=names, orient="row")

    def view(self, name: str, /, **equals: object) -> pl.DataFrame:
        """Not asked."""
        raise AssertionError(name)


def plant(**schedule: int) -> Settings:
    """Three shifts each day, from Monday to Sunday."""
    return parse_settings(b.plant_toml(b.settings(schedule=schedule)))


def due(copy: Copy, clock: str, day: date = DAY, **schedule: int) -> list[str]:
    """The shifts due at a local time, as `08 E`."""
    found = due_shifts(copy, plant(**schedule), now=at(clock, day))
    return [f"{one.production_date:%d} {one.shift}" for one in found]


def test_first_call_begins_with_the_last_shift() -> None:
    """A plant with a long history is not mailed its history."""
    assert due(Copy(), "14:30") == ["08 E"]


def test_grace() -> None:
    """A report is due when the grace after the shift's end is over, not before."""
    left = [(DAY - timedelta(days=1), "N")]
    assert due(Copy(left), "14:29") == []
    assert due(Copy(left), "14:30") == ["08 E"]
    assert due(Copy(left), "15:59", grace=7200) == []


def test_once() -> None:
    """A shift whose report has left is not due again."""
    assert due(Copy([(DAY, "E")]), "15:00") == []


def test_outage_is_caught_up() -> None:
    """After an outage every shift since the last report is due, the oldest first."""
    left = [(DAY - timedelta(days=2), "N")]
    assert due(Copy(left), "14:30") == ["07 E", "07 L", "07 N", "08 E"]


def test_long_outage_has_an_end() -> None:
    """What is older than catch_up_days is history by then."""
    left = [(DAY - timedelta(days=60), "E")]
    assert due(Copy(left), "14:30", catch_up_days=1) == ["07 L", "07 N", "08 E"]


def test_overtime_and_cancelled_shift() -> None:
    """A row of the feed `shifts` moves a shift's end, or takes the shift away."""
    left = [(DAY - timedelta(days=1), "L")]
    windows = [(DAY - timedelta(days=1), "N", at("06:00"), True), (DAY, "E", at("15:30"), False)]
    assert due(Copy(left, windows), "15:59") == []
    assert due(Copy(left, windows), "16:00") == ["08 E"]


def test_extra_shift() -> None:
    """A shift that only the feed knows is due like any other."""
    windows = [(DAY, "extra", at("12:00"), False)]
    assert due(Copy([(DAY - timedelta(days=1), "N")], windows), "13:00") == ["08 extra"]


def test_clock_changes() -> None:
    """The night of a clock change ends when the wall clock says so: 04:00Z in spring, 05:00Z in autumn."""
    for day, end in ((date(2026, 3, 28), 4), (date(2026, 10, 24), 5)):
        now = datetime(day.year, day.month, day.day + 1, end, 30, tzinfo=at("00:00").tzinfo)
        found = due_shifts(Copy([(day, "L")]), plant(), now=now)
        assert [(one.shift, one.ends_at.hour) for one in found] == [("N", end)]
        assert due_shifts(Copy([(day, "L")]), plant(), now=now - timedelta(seconds=1)) == ()


def test_calendar_that_ends_before_the_data_do() -> None:
    """A plant that hears nothing for weeks still reports, by plant.toml's shifts."""
    assert due(Copy([(DAY, "E")]), "22:30", DAY + timedelta(days=30), catch_up_days=1)
