"""One shift that is asked about: its window and data clock, in the plant's zone."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from eol.demo.build import DemoResult
from eol.facts.asked import AskedShift, ask_of, local
from eol.store.connect import open_copy

BERLIN = ZoneInfo("Europe/Berlin")
DAY = date(2026, 9, 14)
ENDS_AT = datetime(2026, 9, 14, 14, 30, tzinfo=BERLIN)
ASKED = AskedShift(
    production_date=DAY,
    shift="day",
    crew=None,
    cancelled=False,
    starts_at=ENDS_AT - timedelta(hours=8, minutes=30),
    ends_at=ENDS_AT,
    settles_at=ENDS_AT + timedelta(hours=24),
    data_clock=ENDS_AT,
)


def test_shift_is_named_as_commands_name_it() -> None:
    """The name is what `--shift` takes."""
    assert ASKED.name == "2026-09-14/day"


def test_running_until_the_data_reach_its_end() -> None:
    """A shift runs by the data clock, not by the wall clock; in an empty store it is not over."""
    early = replace(ASKED, data_clock=ENDS_AT - timedelta(seconds=1))
    assert (ASKED.running, early.running, replace(ASKED, data_clock=None).running) == (
        False,
        True,
        True,
    )


def test_window_of_a_known_shift(demo_plant: DemoResult) -> None:
    """The window comes from the calendar, with its times in the plant's zone (rules 3 and 11)."""
    with open_copy(demo_plant.folder) as copy:
        question = ask_of(copy, DAY, "day")
    assert question is not None
    assert question.asked.starts_at.isoformat() == "2026-09-14T06:00:00+02:00"
    assert question.asked.ends_at == ENDS_AT
    assert question.asked.settles_at == ENDS_AT + timedelta(hours=24)
    assert not question.asked.running


def test_no_such_shift(demo_plant: DemoResult) -> None:
    """A shift that the calendar does not have gives no questions."""
    with open_copy(demo_plant.folder) as copy:
        assert ask_of(copy, DAY, "early") is None


def test_questions_are_of_the_shift(demo_plant: DemoResult) -> None:
    """A question's rows are of the shift that is asked about: the tests that had units in it."""
    with open_copy(demo_plant.folder) as copy:
        question = ask_of(copy, DAY, "night")
        assert question is not None
        tests = {row["test"] for row in question.rows("units_by_test") if row["presented"]}
    assert tests == {"alignment", "electrical", "water", "squeak_rattle"}


def test_times_are_local_and_the_rest_stays() -> None:
    """Times move into the zone, also over the end of summer time; other values stay as they are."""
    row = {"at": datetime(2026, 10, 25, 1, 0, tzinfo=UTC), "day": DAY, "station": "W", "bay": None}
    assert local(row, BERLIN)["at"].isoformat() == "2026-10-25T02:00:00+01:00"
    assert {name: value for name, value in local(row, BERLIN).items() if name != "at"} == {
        "day": DAY,
        "station": "W",
        "bay": None,
    }
