"""Numbers and dates in words."""

from __future__ import annotations

from datetime import date, datetime

from eol.report.formats import day_words, in_words, listed, moment_words, percent, plain
from eol.words import counted


def test_day_in_words() -> None:
    """A day is told with its weekday, day before month, in no one's locale."""
    assert day_words(date(2026, 9, 18)) == "Fri 18 Sep 2026"
    assert day_words(date(2027, 3, 1)) == "Mon 1 Mar 2027"


def test_moment_in_words() -> None:
    """A time carries its day; an unknown one is a question mark."""
    assert moment_words(datetime(2026, 9, 18, 7, 5)) == "Fri 18 Sep 2026 07:05"
    assert moment_words(None) == "?"


def test_shares_and_numbers() -> None:
    """Null is a dash; a whole number has no needless fraction."""
    assert [percent(0.9199), percent(1.0, 0), percent(None)] == ["92.0%", "100%", "–"]
    assert [plain(4.0), plain(4.25), plain(100.0), plain(10.0, 0), plain(None)] == [
        "4",
        "4.2",
        "100",
        "10",
        "–",
    ]


def test_counts_and_lists() -> None:
    """One of a thing is singular; lists end in and."""
    assert [counted(1, "unit"), counted(0, "unit"), counted(2, "loss", "losses")] == [
        "1 unit",
        "0 units",
        "2 losses",
    ]
    assert [listed([]), listed(["a"]), listed(["a", "b"])] == ["", "a", "a and b"]
    assert [in_words(3), in_words(37)] == ["three", "37"]
