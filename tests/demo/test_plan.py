from datetime import UTC, date, datetime

from eol.demo.plan import (
    DAY,
    HOUR,
    RECORD_ENDS,
    SHIFTS,
    first_start,
    moment,
    repair_time,
    shift_at,
    shift_of,
    working_second,
)


def test_forty_shifts_on_twenty_weekdays() -> None:
    """Two shifts a day, Monday to Friday, from 31 August to 25 September 2026."""
    dates = sorted({shift.production_date for shift in SHIFTS})
    assert (len(SHIFTS), len(dates)) == (40, 20)
    assert (dates[0], dates[-1]) == (date(2026, 8, 31), date(2026, 9, 25))
    assert all(day.weekday() < 5 for day in dates)


def test_a_night_shift_starts_at_18_in_berlin() -> None:
    """18:00 to 02:30 local time is 16:00 to 00:30 UTC in summer."""
    night = shift_of(11, "night")
    assert moment(night.starts) == datetime(2026, 9, 14, 16, 0, tzinfo=UTC)
    assert moment(night.ends) == datetime(2026, 9, 15, 0, 30, tzinfo=UTC)


def test_crews_change_places_every_week() -> None:
    """No crew is always the night crew."""
    assert {shift.crew for shift in SHIFTS if shift.name == "night"} == {"amber", "violet"}


def test_a_second_between_shifts_is_in_none() -> None:
    """The window is half open."""
    first = SHIFTS[0]
    assert shift_at(first.starts) is first
    assert shift_at(first.ends - 1) is first
    assert shift_at(first.ends) is None


def test_work_that_would_cross_a_shifts_end_waits() -> None:
    """What does not fit any more starts with the next shift, or never at the record's end."""
    first, second = SHIFTS[:2]
    assert first_start(first.ends - 100, 90) == first.ends - 100
    assert first_start(first.ends - 100, 100) == second.starts
    assert first_start(RECORD_ENDS - 100, 100) is None


def test_a_crew_works_in_its_own_shifts() -> None:
    """An evaluator of the other crew waits for the next shift."""
    first, second = SHIFTS[:2]
    assert first_start(first.starts, 60, crew=second.crew) == second.starts


def test_worked_time_runs_on_in_the_next_shift() -> None:
    """8.5 hours of one shift, then the next."""
    assert working_second(SHIFTS[0], 9 * HOUR) == SHIFTS[1].starts + HOUR // 2


def test_repair_rests_at_the_weekend() -> None:
    """From Saturday 06:00 to Monday 06:00."""
    saturday = 5 * DAY
    assert repair_time(saturday + 5 * HOUR) == saturday + 5 * HOUR
    assert repair_time(saturday + 7 * HOUR) == 7 * DAY + 6 * HOUR
    assert repair_time(7 * DAY + HOUR) == 7 * DAY + 6 * HOUR
