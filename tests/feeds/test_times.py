"""Local and offset times made UTC, those that never were or came twice told apart (rule 3)."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone

import polars as pl
import pytest
from feed_rows import STEADY, utc
from hypothesis import given
from hypothesis import strategies as st

from eol.feeds.times import chrono_format, local_times, read_dates, read_times, text_time

BERLIN = "Europe/Berlin"


def first(text: str, **how: object) -> datetime | None:
    """The time read of one cell."""
    return read_times(pl.Series([text]), **{"zone": BERLIN, **how}).first[0]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "text",
    [
        "2026-09-08 06:00:00",
        "2026-09-08T06:00:00",
        "2026-09-08 06:00",
        "2026-09-08T04:00:00Z",
        "2026-09-08T04:00:00.000000Z",
        "2026-09-08 04:00:00 UTC",
        "2026-09-08T06:00:00+02:00",
        "2026-09-08 06:00:00 +0200",
        "2026-09-08T06:00+02",
        "2026-09-08T06:00:00,000+02:00",
    ],
)
def test_iso_8601_in_its_spellings(text: str) -> None:
    """One instant, however ISO 8601 spells it; without an offset it is local."""
    assert first(text) == utc("2026-09-08T04:00:00")


def test_spellings_may_mix_in_a_column() -> None:
    """A column keeps no spelling: each cell is read by itself."""
    sent = pl.Series(["2026-09-08 06:00:00", None, "2026-09-08T04:00:00Z", "soon"])
    times = read_times(sent, zone=BERLIN)
    at = utc("2026-09-08T04:00:00")
    assert times.first.to_list() == [at, None, at, None]
    assert times.unread.to_list() == [False, False, False, True]


def test_fraction_of_a_second_is_kept() -> None:
    """Milliseconds survive, behind a dot or a comma."""
    assert first("2026-09-08 06:00:00.483") == utc("2026-09-08T04:00:00.483")
    assert first("2026-09-08 06:00:00,483") == utc("2026-09-08T04:00:00.483")


def test_a_time_that_never_was() -> None:
    """02:30 of the night in which clocks go forward is no time (CASES 3)."""
    times = read_times(pl.Series(["2026-03-29 02:30"]), zone=BERLIN)
    assert times.first.to_list() == [None]
    assert times.never.to_list() == [datetime(2026, 3, 29, 2, 30)]
    assert times.unread.to_list() == [False]


def test_fixed_offset_has_no_gap() -> None:
    """A bench that keeps +01:00 all year has that 02:30: it is 01:30 UTC (CASES 3)."""
    assert first("2026-03-29 02:30", zone="+01:00") == utc("2026-03-29T01:30:00")


def test_a_time_that_came_twice() -> None:
    """Both readings of 02:30 in October are kept (CHECKS dst-twice)."""
    times = read_times(pl.Series(["2025-10-26 02:30"]), zone=BERLIN)
    assert times.first[0] == utc("2025-10-26T00:30:00")
    assert times.second[0] == utc("2025-10-26T01:30:00")


def test_only_the_repeated_hour_has_a_second_reading() -> None:
    """03:00 of that night came once."""
    times = read_times(pl.Series(["2025-10-26 01:59", "2025-10-26 03:00"]), zone=BERLIN)
    assert times.second.to_list() == [None, None]


def test_own_format_is_tried_first() -> None:
    """A format of plant.toml reads what ISO 8601 does not."""
    assert first("08.09.2026 06:00:00", time_format="%d.%m.%Y %H:%M:%S") == utc(
        "2026-09-08T04:00:00"
    )
    assert first("2026-09-08 06:00:00", time_format="%d.%m.%Y %H:%M:%S") == utc(
        "2026-09-08T04:00:00"
    )


def test_own_format_with_offset() -> None:
    """A format with %z carries its offset."""
    assert first("08/09/26 06:00 +0500", time_format="%d/%m/%y %H:%M %z") == utc(
        "2026-09-08T01:00:00"
    )


def test_fraction_in_the_manner_of_strptime() -> None:
    """%S.%f means the fraction of a second, as in Python."""
    assert chrono_format("%H:%M:%S.%f") == "%H:%M:%S%.f"
    assert first("2026/09/08 06:00:00.5", time_format="%Y/%m/%d %H:%M:%S.%f") == utc(
        "2026-09-08T04:00:00.500"
    )


def test_date_is_a_time_only_where_it_may_be() -> None:
    """A bare date has no time of day; where a date is allowed it is the local midnight."""
    assert first("2026-09-08") is None
    assert first("2026-09-08", dates=True) == utc("2026-09-07T22:00:00")
    assert first("08.09.2026", time_format="%d.%m.%Y") is None


def test_day_number_of_a_spreadsheet() -> None:
    """A time that a spreadsheet saved as its day number is read, a bare number is none."""
    times = read_times(pl.Series(["45658.75", "45658", "2025-01-01 18:00"]), zone="+00:00")
    at = datetime(2025, 1, 1, 18, tzinfo=UTC)
    assert times.first.to_list() == [at, None, at]
    assert times.unread.to_list() == [False, True, False]


def test_native_times_with_a_zone_are_taken_as_they_are() -> None:
    """Parquet that knows its zone needs none of ours."""
    at = utc("2026-10-25T01:30:00")
    sent = pl.Series([at]).dt.convert_time_zone("America/New_York")
    assert read_times(sent, zone=BERLIN).first.to_list() == [at]


def test_native_times_without_a_zone_are_local() -> None:
    """Parquet without a zone holds what the wall clock showed."""
    sent = pl.Series([datetime(2026, 9, 8, 6)]).cast(pl.Datetime("ms"))
    assert read_times(sent, zone=BERLIN).first.to_list() == [utc("2026-09-08T04:00:00")]


def test_empty_and_all_null_columns() -> None:
    """A column without a cell or without a value has no faults."""
    for sent in (pl.Series([], dtype=pl.String), pl.Series([None, None])):
        times = read_times(sent, zone=BERLIN)
        assert times.first.null_count() == len(sent)
        assert not times.unread.any()


def test_dates() -> None:
    """A date is ISO 8601, the plant's own format, or the local day of a time."""
    sent = pl.Series(["2026-09-08", "2026-09-07T23:30:00Z", "8.9.", None])
    assert read_dates(sent, zone=BERLIN).to_list() == [
        date(2026, 9, 8),
        date(2026, 9, 8),
        None,
        None,
    ]
    own = read_dates(pl.Series(["08.09.2026"]), zone=BERLIN, time_format="%d.%m.%Y")
    assert own.to_list() == [date(2026, 9, 8)]


def test_native_dates() -> None:
    """Native dates stay, of a native time the local day counts."""
    late = pl.Series([utc("2026-09-07T23:30:00")])
    assert read_dates(pl.Series([date(2026, 9, 8)]), zone=BERLIN)[0] == date(2026, 9, 8)
    assert read_dates(late, zone=BERLIN)[0] == date(2026, 9, 8)
    assert read_dates(late.dt.replace_time_zone(None), zone=BERLIN)[0] == date(2026, 9, 7)


@STEADY
@given(
    st.datetimes(datetime(2020, 1, 1), datetime(2030, 1, 1)),
    st.integers(-14 * 60, 14 * 60),
)
def test_any_offset_is_undone(local: datetime, minutes: int) -> None:
    """A time with an offset is that instant, whatever the plant's zone."""
    sent = local.replace(tzinfo=timezone(timedelta(minutes=minutes)))
    assert first(sent.isoformat()) == sent.astimezone(UTC)


@STEADY
@given(st.datetimes(datetime(2020, 1, 1), datetime(2030, 1, 1), timezones=st.just(UTC)))
def test_local_and_back(at: datetime) -> None:
    """What the clock showed, read again, is the instant or its twin an hour apart."""
    shown = local_times(pl.Series([at]), BERLIN)
    times = read_times(shown, zone=BERLIN)
    assert at in (times.first[0], times.second[0])


def test_local_times_of_a_fixed_offset() -> None:
    """A fixed offset shows the same hour all year."""
    assert local_times(pl.Series([utc("2026-07-01T00:00:00")]), "+01:00")[0] == datetime(
        2026, 7, 1, 1
    )


def test_one_time_in_a_name() -> None:
    """A single time is read as strptime does; what is none is None."""
    assert text_time("20260908", time_format="%Y%m%d", zone="+01:00") == utc("2026-09-07T23:00:00")
    assert text_time("20261308", time_format="%Y%m%d", zone=BERLIN) is None
