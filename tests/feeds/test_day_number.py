"""Day numbers of spreadsheets, held to ECMA-376."""

from datetime import datetime

import pytest

from eol.feeds.day_number import day_number_time


@pytest.mark.parametrize(
    ("number", "time"),
    [
        ("36161", datetime(1999, 1, 1)),
        ("40179", datetime(2010, 1, 1)),
        ("45658", datetime(2025, 1, 1)),
        ("45658.75", datetime(2025, 1, 1, 18)),
        ("45000", datetime(2023, 3, 15)),
        ("1", datetime(1900, 1, 1)),
        ("59", datetime(1900, 2, 28)),
        ("61", datetime(1900, 3, 1)),
        ("45658.416724537", datetime(2025, 1, 1, 10, 0, 5)),
        ("2958465", datetime(9999, 12, 31)),
    ],
)
def test_day_number(number: str, time: datetime) -> None:
    """ECMA-376 date systems, 1900: 36161 is 1999-01-01, 40179 is 2010-01-01."""
    assert day_number_time(number) == time


@pytest.mark.parametrize("number", ["60", "60.5"])
def test_day_60_is_the_day_that_never_was(number: str) -> None:
    """1900 was no leap year, though the system counts its 29 February."""
    with pytest.raises(ValueError, match="29 February 1900, a day that never was"):
        day_number_time(number)


@pytest.mark.parametrize("number", ["0", "-5", "2958466", "nan", "inf"])
def test_other_numbers_are_no_days(number: str) -> None:
    """Outside 1900-01-01 to 9999-12-31 there is no day number."""
    with pytest.raises(ValueError, match="is no day number of a spreadsheet"):
        day_number_time(number)
