"""What a late file moved: told where it shows as printed, of tests alone."""

from __future__ import annotations

import builders as b
import plants
import pytest
from mail_plants import at

from eol.mail.asked import Asked
from eol.mail.changes import (
    Change,
    late_runs,
    moved_since,
    reason_words,
    reports_since,
)
from eol.mail.leave import leave
from eol.plant.folder import PlantFolder
from eol.plant.settings import read_settings
from eol.store.connect import open_copy

pytestmark = pytest.mark.mail

FTT = Change("ftt_by_shift.ftt", "Water test", 410, 0.952, 441, 0.939)


def test_words() -> None:
    """From what to what, of how many."""
    assert FTT.words == "Water test FTT was 95.2% of 410, now 93.9% of 441"
    assert FTT.news == "water test FTT was 95.2%, now 93.9%"
    line = Change("line_by_shift.dphu", "", None, None, 4, 25.0)
    assert line.words == "Line defects per 100 units was none of 0, now 25 of 4"


@pytest.mark.parametrize(("value", "shows"), [(0.95204, False), (0.951, True), (None, True)])
def test_shows_as_printed(value: float | None, shows: bool) -> None:
    """What is the same as printed is no news."""
    assert Change("ftt_by_shift.ftt", "W", 400, 0.952, 401, value).shows is shows


def test_reason() -> None:
    """Late runs are counted; without any, something else moved it."""
    assert reason_words(31) == "31 late runs"
    assert reason_words(0).startswith("no late run")


def test_late_file_moves_a_test(plant: PlantFolder, undrawn: None) -> None:
    """A file loaded after the report moves a test's figure: the shift, the change and the late runs."""
    asked = Asked(b.TUESDAY, "E", at("14:00"))
    leave(plant, read_settings(plant.toml), asked, now=at("14:35"))
    rows = b.run("U4", "09:00", "fail", "LEAK/RRQ") + b.run("U5", "09:10", "fail", "LEAK/RRQ")
    plants.load(plant, b.file("water", rows, name="water_late"), now=at("15:00"))
    with open_copy(plant) as copy:
        [report] = reports_since(copy, b.TUESDAY)
        [moved] = moved_since(copy, b.TUESDAY)
        assert late_runs(copy, report) == 2
    assert (moved.shift, report.letters, report.made_at) == ("E", 1, at("14:35"))
    assert moved.changes[0].news == "water FTT was 33.3%, now 20.0%"


def test_line_alone_is_no_news(plant: PlantFolder, undrawn: None) -> None:
    """Units of the cohort that go on through their tests move the line's figures, and no mail."""
    leave(plant, read_settings(plant.toml), Asked(b.TUESDAY, "E", None), now=at("14:35"))
    events = [b.event(vin, "line_off", "06:40") for vin in ("U7", "U8")]
    after = [row for vin in ("U7", "U8") for row in b.run(vin, "15:00")]
    plants.load(
        plant,
        b.file("events", events, name="events_2"),
        b.file("water", after, name="water_2"),
        now=at("15:30"),
    )
    with open_copy(plant) as copy:
        assert moved_since(copy, b.TUESDAY) == []
