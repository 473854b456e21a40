"""Time formats guessed from cells, and from the names of files."""

from __future__ import annotations

from fnmatch import fnmatchcase

import pytest

from eol.feeds.guess_times import clock_format, date_format, name_patterns, time_format


@pytest.mark.parametrize(
    ("cell", "form"),
    [
        ("2026-09-08T06:00:00Z", ""),
        ("2026-09-08 06:00", ""),
        ("08.09.2026 06:00:00", "%d.%m.%Y %H:%M:%S"),
        ("8.9.26 6:05", "%d.%m.%y %H:%M"),
        ("2026/09/08 06:00:01.25", "%Y/%m/%d %H:%M:%S.%f"),
        ("20260908060000", "%Y%m%d%H%M%S"),
        ("20260908_060000", "%Y%m%d_%H%M%S"),
        ("1757311200", None),
        ("08.09.2026", None),
        ("rot", None),
    ],
)
def test_time_format(cell: str, form: str | None) -> None:
    """ISO 8601 needs no format, a number is no time, and a date alone neither."""
    assert time_format([cell], zone="Europe/Berlin") == form


def test_doubtful_day_and_month() -> None:
    """The day goes first, but not in America; a 13 settles it."""
    doubtful = ["09/08/2026 06:00"]
    assert time_format(doubtful, zone="Europe/Berlin") == "%d/%m/%Y %H:%M"
    assert time_format(doubtful, zone="America/New_York") == "%m/%d/%Y %H:%M"
    assert time_format([*doubtful, "09/13/2026 06:00"], zone="Europe/Berlin") == "%m/%d/%Y %H:%M"


def test_dates_and_times_of_day() -> None:
    """Apart from each other they are told too."""
    assert date_format(["2026-09-08"], zone="UTC") == "%Y-%m-%d"
    assert date_format(["08.09.2026"], zone="UTC") == "%d.%m.%Y"
    assert clock_format(["06:00", "6:05"]) == "%H:%M"
    assert clock_format(["6.5"]) is None


@pytest.mark.parametrize(
    ("name", "files", "made_at"),
    [
        ("WT_20260908_0600.csv", "WT_*.csv", "WT_{made_at:%Y%m%d_%H%M}.csv"),
        ("E1_2026-09-08T06-00-01.tsv", "E1_*.tsv", "E1_{made_at:%Y-%m-%dT%H-%M-%S}.tsv"),
        ("x_08.09.2026_3.csv", "x_*_*.csv", "x_{made_at:%d.%m.%Y}_*.csv"),
        ("log_12345678.csv", "log_*.csv", None),
        ("W1export[2].csv", "W1export[[]*].csv", None),
        ("plain", "plain", None),
    ],
)
def test_file_names(name: str, files: str, made_at: str | None) -> None:
    """A date in the name tells when the file was made, other running numbers may be any."""
    assert name_patterns(name, zone="UTC") == (files, made_at)
    assert fnmatchcase(name, files)
