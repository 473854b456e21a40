"""The plant's form of dates and numbers."""

from __future__ import annotations

from datetime import date

import pytest

from eol.figures.formats import Form, day_words, percent, plain, short_day, written_as

DAY = date(2026, 9, 4)


@pytest.mark.parametrize(
    ("dates", "day", "short"),
    [
        ("day-month", "Fri 4 Sep 2026", "4 Sep"),
        ("month-day", "Fri Sep 4 2026", "Sep 4"),
        ("year-month-day", "Fri 2026-09-04", "09-04"),
    ],
)
def test_order_of_day_and_month(dates: str, day: str, short: str) -> None:
    """A day is written in the plant's order, its month never as a bare number that could be a day."""
    with written_as(Form(dates=dates)):
        assert (day_words(DAY), short_day(DAY)) == (day, short)


def test_decimal_sign() -> None:
    """Shares and numbers carry the plant's decimal sign; whole ones need none."""
    with written_as(Form(decimal=",")):
        assert (percent(0.9199), plain(15.83), plain(4.0), percent(1.0, 0)) == (
            "92,0%",
            "15,8",
            "4",
            "100%",
        )


def test_form_ends_with_its_block() -> None:
    """After the block, also one that failed, everything is written as before."""
    with pytest.raises(ValueError, match="x"), written_as(Form("month-day", ",")):
        raise ValueError("x")
    assert percent(0.5) == "50.0%"
