"""Weekdays, times of day, zones, and the one instant of a wall clock time (rule 3)."""

from datetime import UTC, date, datetime, time, timedelta, timezone

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from eol.plant.clock import (
    midnight,
    moment_to_utc,
    parse_days,
    parse_time_of_day,
    time_zone,
    to_utc,
)

BERLIN = time_zone("Europe/Berlin")


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("mon-fri", {0, 1, 2, 3, 4}),
        ("sat", {5}),
        ("mon,wed,fri", {0, 2, 4}),
        ("fri-mon", {4, 5, 6, 0}),
        ("Mon - Tue , sun", {0, 1, 6}),
        ("all", {0, 1, 2, 3, 4, 5, 6}),
        ("none", set()),
    ],
)
def test_days_are_read(text: str, days: set[int]) -> None:
    """A range may run over Sunday; case and blanks do not matter."""
    assert parse_days(text) == days


@pytest.mark.parametrize("text", ["", "monday", "mon-wed-fri", "mon,,fri", "weekdays"])
def test_other_words_are_no_days(text: str) -> None:
    """What is no day is refused and the message shows how days are written."""
    with pytest.raises(ValueError, match='days such as "mon-fri"'):
        parse_days(text)


def test_times_of_day_are_read() -> None:
    """One digit of the hour will do; 24:00 is the midnight that ends a day."""
    assert parse_time_of_day("6:05") == time(6, 5)
    assert parse_time_of_day("22:15:30") == time(22, 15, 30)
    assert parse_time_of_day("24:00") == time(0)


@pytest.mark.parametrize("text", ["6", "06.00", "25:00", "24:01", "12:60", "6 am", ""])
def test_other_words_are_no_times_of_day(text: str) -> None:
    """What is no time of day is refused in words."""
    with pytest.raises(ValueError, match="must be a time of day"):
        parse_time_of_day(text)


def test_an_offset_is_a_zone() -> None:
    """A bench may keep one offset all year."""
    assert time_zone("+01:00") == timezone(timedelta(hours=1))
    assert time_zone("-03:30") == timezone(-timedelta(hours=3, minutes=30))


@pytest.mark.parametrize("name", ["Europe/Berln", "europe/berlin ", "Europe/Brelin"])
def test_an_unknown_zone_names_the_nearest(name: str) -> None:
    """A misspelt zone is refused with the one that was meant."""
    with pytest.raises(ValueError, match="nearest right one is Europe/Berlin"):
        time_zone(name)


@pytest.mark.parametrize("name", ["Europe", "", "../etc", "+25:00", "+01:75", "/UTC"])
def test_folders_and_paths_are_no_zones(name: str) -> None:
    """What the zone files cannot hold is a fault of the key, never a crash."""
    with pytest.raises(ValueError, match=r"is no time zone|must be an offset"):
        time_zone(name)


def test_a_time_that_comes_twice_is_its_first_pass() -> None:
    """In the repeated hour a boundary is the earlier instant, whatever fold it carries."""
    twice = datetime(2026, 10, 25, 2, 30)
    assert to_utc(twice, BERLIN) == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)
    assert to_utc(twice.replace(fold=1), BERLIN) == to_utc(twice, BERLIN)


@pytest.mark.parametrize("minute", [0, 1, 30, 59])
def test_a_time_that_never_was_is_the_jump(minute: int) -> None:
    """Every time of the skipped hour is the instant at which the clocks were put forward."""
    never = datetime(2026, 3, 29, 2, minute)
    assert to_utc(never, BERLIN) == datetime(2026, 3, 29, 1, 0, tzinfo=UTC)


def test_a_midnight_that_never_was_is_the_jump() -> None:
    """Where clocks are put forward at midnight the day begins at one o'clock."""
    begins = midnight(date(2024, 9, 8), time_zone("America/Santiago"))
    assert begins == datetime(2024, 9, 8, 4, 0, tzinfo=UTC)


def test_a_moment_with_an_offset_keeps_it() -> None:
    """A time of plant.toml that carries an offset is not read by the plant's clock."""
    moment = datetime(2026, 9, 3, 6, tzinfo=timezone(timedelta(hours=-5)))
    assert moment_to_utc(moment, BERLIN) == datetime(2026, 9, 3, 11, tzinfo=UTC)
    assert moment_to_utc(datetime(2026, 9, 3, 6), BERLIN) == datetime(2026, 9, 3, 4, tzinfo=UTC)


@settings(derandomize=True)
@given(
    zone=st.sampled_from(
        ["Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "Asia/Tokyo"]
    ),
    walls=st.lists(
        st.datetimes(datetime(2020, 1, 1), datetime(2030, 1, 1)), min_size=2, max_size=2
    ).map(sorted),
)
def test_the_order_of_the_wall_clock_is_kept(zone: str, walls: list[datetime]) -> None:
    """What comes later on the wall clock never comes earlier in UTC, so windows cannot cross."""
    first, second = (to_utc(wall, time_zone(zone)) for wall in walls)
    assert first <= second
