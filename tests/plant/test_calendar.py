"""Windows of real days (rule 3)."""

import time as stopwatch
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

from eol.plant.calendar import ShiftWindow, shift_windows
from eol.plant.folder import TEMPLATE
from eol.plant.settings import Settings, parse_settings

SettingsOf = Callable[[str], Settings]
NIGHT = '[[shift]]\nname="N"\nstarts="22:00"\nends="06:00"\n'
TUESDAY = date(2026, 9, 8)


def dates(windows: list[ShiftWindow]) -> list[date]:
    """The production dates."""
    return [window.production_date for window in windows]


def test_a_window_is_told_in_utc(settings_of: SettingsOf) -> None:
    """06:00 in Berlin's summer is 04:00 UTC."""
    starts, ends = datetime(2026, 9, 8, 4, tzinfo=UTC), datetime(2026, 9, 8, 12, 30, tzinfo=UTC)
    expected = ShiftWindow(TUESDAY, "day", None, starts, ends, cancelled=False)
    assert shift_windows(settings_of(""), TUESDAY, TUESDAY) == [expected]


def test_first_and_last_day_are_included(settings_of: SettingsOf) -> None:
    """Three days give three windows; days the wrong way round give none."""
    settings = settings_of("")
    assert len(shift_windows(settings, TUESDAY, date(2026, 9, 10))) == 3
    assert shift_windows(settings, TUESDAY, date(2026, 9, 7)) == []


def test_a_night_shift_belongs_to_its_start(settings_of: SettingsOf) -> None:
    """By "start" the shift from Tuesday to Wednesday is Tuesday's."""
    (window,) = shift_windows(settings_of(NIGHT), TUESDAY, TUESDAY)
    assert window.starts_at == datetime(2026, 9, 8, 20, tzinfo=UTC)


def test_a_night_shift_may_belong_to_its_end(settings_of: SettingsOf) -> None:
    """By "end" the shift from Monday to Tuesday is Tuesday's."""
    plant = '[plant]\nname="Q"\ntimezone="Europe/Berlin"\nstarts_on=2026-01-01\ndate_by="end"\n'
    (window,) = shift_windows(settings_of(plant + NIGHT), TUESDAY, TUESDAY)
    assert window.starts_at == datetime(2026, 9, 7, 20, tzinfo=UTC)


def test_an_end_at_midnight_crosses_nothing(settings_of: SettingsOf) -> None:
    """A shift that ends at 24:00 belongs to its one day, whichever way dates are told."""
    plant = '[plant]\nname="Q"\ntimezone="Europe/Berlin"\nstarts_on=2026-01-01\ndate_by="end"\n'
    late = '[[shift]]\nname="L"\nstarts="16:00"\nends="24:00"\n'
    (window,) = shift_windows(settings_of(plant + late), TUESDAY, TUESDAY)
    assert window.ends_at == datetime(2026, 9, 8, 22, tzinfo=UTC)


def test_days_are_those_of_the_start(settings_of: SettingsOf) -> None:
    """Friday's night shift is worked although it ends on Saturday."""
    windows = shift_windows(settings_of(NIGHT + 'days="fri"\n'), TUESDAY, date(2026, 9, 30))
    assert dates(windows) == [date(2026, 9, 11), date(2026, 9, 18), date(2026, 9, 25)]


def test_the_crew_of_a_shift_is_kept(settings_of: SettingsOf) -> None:
    """A crew that plant.toml names is that of each window."""
    (window,) = shift_windows(settings_of(NIGHT + 'crew="A"\n'), TUESDAY, TUESDAY)
    assert (window.shift, window.crew, window.cancelled) == ("N", "A", False)


def test_the_calendar_is_dated(settings_of: SettingsOf) -> None:
    """The newest row of a name not after the day holds; the others are not touched by it."""
    text = (
        '[[shift]]\nname="E"\nstarts="06:00"\nends="14:00"\n'
        '[[shift]]\nname="L"\nstarts="14:00"\nends="22:00"\n'
        '[[shift]]\nname="E"\nstarts="05:00"\nends="13:00"\nvalid_from=2026-09-09\n'
    )
    windows = shift_windows(settings_of(text), TUESDAY, date(2026, 9, 9))
    hours = [(window.shift, window.starts_at.hour) for window in windows]
    assert hours == [("E", 4), ("L", 12), ("E", 3), ("L", 12)]


def test_a_shift_with_a_first_day_is_not_there_before(settings_of: SettingsOf) -> None:
    """A shift whose only row is dated starts on that day."""
    windows = shift_windows(
        settings_of(NIGHT + "valid_from=2026-09-09\n"), TUESDAY, date(2026, 9, 10)
    )
    assert dates(windows) == [date(2026, 9, 9), date(2026, 9, 10)]


def test_boundaries_in_a_clock_change_meet(settings_of: SettingsOf) -> None:
    """Shifts that touch at 02:30 touch in both nights: at the jump, and at the first pass."""
    text = NIGHT.replace("06:00", "02:30") + '[[shift]]\nname="E"\nstarts="02:30"\nends="10:00"\n'
    settings = settings_of(text)
    for day, instant in ((date(2026, 3, 29), 1.0), (date(2026, 10, 25), 0.5)):
        windows = shift_windows(settings, day - timedelta(days=1), day)
        meeting = datetime(day.year, day.month, day.day, tzinfo=UTC) + timedelta(hours=instant)
        assert [w.starts_at for w in windows if w.shift == "E"][-1] == meeting
        assert meeting in [w.ends_at for w in windows if w.shift == "N"]


def test_round_the_clock_leaves_no_gap_and_no_overlap() -> None:
    """Over two years with four clock changes each window ends where the next starts."""
    text = TEMPLATE.read_text(encoding="utf-8").replace('days = "mon-fri"', 'days = "all"')
    windows = shift_windows(parse_settings(text), date(2026, 1, 1), date(2027, 12, 31))
    assert [one.ends_at for one in windows[:-1]] == [one.starts_at for one in windows[1:]]


def test_ten_years_are_quick() -> None:
    """Ten years of three shifts cost under 0.2 s of the processor, the best of three."""
    text = TEMPLATE.read_text(encoding="utf-8").replace('days = "mon-fri"', 'days = "all"')
    settings, spent = parse_settings(text), []
    for _ in range(3):
        started = stopwatch.process_time()
        windows = shift_windows(settings, date(2026, 1, 1), date(2035, 12, 31))
        spent.append(stopwatch.process_time() - started)
    assert len(windows) == 3 * 3652
    assert min(spent) < 0.2
