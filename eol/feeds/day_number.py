"""Day numbers, as spreadsheets keep times; one that saves its cells as text leaves them so."""

from __future__ import annotations

from datetime import datetime, timedelta

_EPOCH = datetime(1899, 12, 30)  # from day 61 on; it makes up for the day that never was
_LAST = 2_958_466  # the first day of the year 10000


def day_number_time(text: str) -> datetime:
    """Turn a spreadsheet's day number (1900 system) into a local time, to the millisecond.

    Raises:
        ValueError: it is no day number, or names 29 February 1900, a day that never was.

    Source: ECMA-376, date systems: day 1 is 1900-01-01, and day 60 is kept for 1900-02-29.

    Example:
        >>> day_number_time("45658.75")
        datetime.datetime(2025, 1, 1, 18, 0)
    """
    number = float(text)
    if not 1 <= number < _LAST:
        raise ValueError(f"{text} is no day number of a spreadsheet")
    if 60 <= number < 61:
        raise ValueError(f"{text} is 29 February 1900, a day that never was")
    days = number if number > 60 else number + 1
    return _EPOCH + timedelta(milliseconds=round(days * 86_400_000))
