"""Shifts that overlap or come twice on one day (rule 3)."""

from collections.abc import Callable

from eol.plant.settings import Settings

FaultsOf = Callable[[str], list[str]]
SettingsOf = Callable[[str], Settings]


def shift(name: str, hours: str, days: str = "all", more: str = "") -> str:
    """One [[shift]]."""
    starts, ends = hours.split("-")
    return f'[[shift]]\nname="{name}"\nstarts="{starts}"\nends="{ends}"\ndays="{days}"\n{more}\n'


def test_shifts_may_touch(settings_of: SettingsOf) -> None:
    """Windows are half-open: one may end when the next starts, round the clock."""
    text = shift("E", "06:00-14:00") + shift("L", "14:00-22:00") + shift("N", "22:00-06:00")
    assert len(settings_of(text).shifts) == 3


def test_an_overlap_names_both_shifts_and_the_minutes(faults_of: FaultsOf) -> None:
    """The fault is at the later row, and told once for all days."""
    assert faults_of(shift("day", "06:00-14:30") + shift("late", "14:00-22:00")) == [
        'shift[1].starts = "14:00": late (mon 14:00-22:00) overlaps day (mon 06:00-14:30) '
        "by 30 minutes; one shift must end before the next starts"
    ]


def test_an_overlap_over_midnight_is_seen(faults_of: FaultsOf) -> None:
    """The night shift's end is held against the next day's first shift."""
    (fault,) = faults_of(shift("early", "05:30-14:00") + shift("night", "22:00-06:00"))
    assert fault.startswith('shift[1].ends = "06:00": early (tue 05:30-14:00) overlaps night')
    assert "by 30 minutes" in fault


def test_an_overlap_over_the_week_s_end_is_seen(faults_of: FaultsOf) -> None:
    """Sunday night runs into Monday."""
    (fault,) = faults_of(
        shift("night", "22:00-06:30", "sun") + shift("early", "06:00-14:00", "mon-fri")
    )
    assert "early (mon 06:00-14:00) overlaps night (sun 22:00-06:30)" in fault


def test_other_days_do_not_overlap(settings_of: SettingsOf) -> None:
    """Saturday's long shift meets neither Friday's nor the week's."""
    text = shift("day", "06:00-14:30", "mon-fri") + shift("day", "06:00-18:00", "sat")
    assert len(settings_of(text).shifts) == 2


def test_a_short_shift_inside_a_long_one_is_seen(faults_of: FaultsOf) -> None:
    """Each shift is held against all that still run, not only against its neighbour."""
    text = shift("all", "06:00-22:00") + shift("a", "08:00-09:00") + shift("b", "12:00-13:00")
    assert [fault.split(" ")[0] for fault in faults_of(text)] == [
        "shift[1].starts",
        "shift[2].starts",
    ]


def test_a_new_calendar_is_held_against_the_old_one(faults_of: FaultsOf) -> None:
    """On the day of the change the old night shift still runs into the new early shift."""
    text = (
        shift("early", "06:00-14:00")
        + shift("night", "22:00-06:00")
        + shift("early", "05:00-13:00", more="valid_from = 2026-07-01")
        + shift("night", "22:00-05:00", more="valid_from = 2026-07-01")
    )
    (fault,) = faults_of(text)
    assert "early (wed 05:00-13:00) overlaps night (tue 22:00-06:00) by 60 minutes" in fault


def test_a_shift_that_ended_overlaps_nothing(settings_of: SettingsOf) -> None:
    """Days "none" from a day on take a shift out of the calendar."""
    text = (
        shift("day", "06:00-14:00")
        + shift("late", "14:00-22:00")
        + shift("late", "14:00-22:00", "none", "valid_from = 2026-07-01")
        + shift("day", "06:00-18:00", more="valid_from = 2026-07-01")
    )
    assert len(settings_of(text).shifts) == 4


def test_one_name_comes_once_a_day(faults_of: FaultsOf) -> None:
    """A shift is known by its date and name, so the second of a day needs another."""
    (fault,) = faults_of(shift("day", "06:00-10:00") + shift("day", "12:00-16:00"))
    assert fault.startswith('shift[1].starts = "12:00": shift day comes twice on')


def test_a_shift_of_a_whole_day_overlaps_any_other(faults_of: FaultsOf) -> None:
    """An end equal to the start is on the next day."""
    (fault,) = faults_of(shift("day", "06:00-06:00") + shift("late", "14:00-22:00"))
    assert "by 480 minutes" in fault
