"""Numbers, dates and counts in words: the one place that knows the plant's form of writing them.

The form is set once around a page (`written_as`); it depends on no locale of the machine.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from datetime import date, datetime

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


@dataclass(frozen=True, slots=True)
class Form:
    """How a plant writes: `dates` is day-month, month-day or year-month-day; `decimal` its sign."""

    dates: str = "day-month"
    decimal: str = "."


_FORM: ContextVar[Form] = ContextVar("form", default=Form())  # noqa: B039 (a Form is frozen)


_PERIOD: ContextVar[str] = ContextVar("period", default="shift")


@contextmanager
def written_as(form: Form, *, period: str = "shift") -> Iterator[None]:
    """Write dates and numbers in a plant's form for as long as the block lasts.

    Args:
        form: the plant's.
        period: what the page is of: shift, day or week.

    Example:
        >>> with written_as(Form("month-day", ",")):
        ...     day_words(date(2026, 9, 18)), percent(0.8224)
        ('Fri Sep 18 2026', '82,2%')
    """
    before, before_period = _FORM.set(form), _PERIOD.set(period)
    try:
        yield
    finally:
        _FORM.reset(before)
        _PERIOD.reset(before_period)


def period_noun() -> str:
    """Return what the page is of, in a word: shift, day or week.

    Example:
        >>> with written_as(Form(), period="week"):
        ...     f"No unit was tested in this {period_noun()}"
        'No unit was tested in this week'
    """
    return _PERIOD.get()


def decimal_sign() -> str:
    """Return the sign between whole number and fraction."""
    return _FORM.get().decimal


def day_words(day: date) -> str:
    """Return a day with its weekday.

    Example:
        >>> day_words(date(2026, 9, 18))
        'Fri 18 Sep 2026'
    """
    weekday = _DAYS[day.weekday()]
    if _FORM.get().dates == "year-month-day":
        return f"{weekday} {day.isoformat()}"
    return f"{weekday} {short_day(day)} {day.year}"


def short_day(day: date) -> str:
    """Return a day without its year.

    Example:
        >>> short_day(date(2026, 9, 18))
        '18 Sep'
    """
    month = _MONTHS[day.month - 1]
    dates = _FORM.get().dates
    if dates == "year-month-day":
        return f"{day:%m-%d}"
    return f"{month} {day.day}" if dates == "month-day" else f"{day.day} {month}"


def time_words(moment: datetime | None) -> str:
    """Return the time of day; `?` where it is unknown."""
    return "?" if moment is None else f"{moment:%H:%M}"


def moment_words(moment: datetime | None) -> str:
    """Return day and time; `?` where they are unknown."""
    return "?" if moment is None else f"{day_words(moment)} {moment:%H:%M}"


def point_words(moment: datetime | None) -> str:
    """Return a moment of the page's own period: the time of a shift, with the day of longer ones."""
    if moment is None or period_noun() == "shift":
        return time_words(moment)
    return f"{short_day(moment.date())} {time_words(moment)}"


def percent(share: float | None, digits: int = 1) -> str:
    """Return a share in percent; a dash where there is none.

    Example:
        >>> percent(0.8224), percent(None)
        ('82.2%', '–')
    """
    return "–" if share is None else f"{share:.{digits}%}".replace(".", decimal_sign())


def plain(number: float | None, digits: int = 1) -> str:
    """Return a number without a needless fraction; a dash where there is none.

    Example:
        >>> plain(4.0), plain(15.83)
        ('4', '15.8')
    """
    if number is None:
        return "–"
    text = f"{number:.{digits}f}"
    text = text.removesuffix("." + "0" * digits) if digits else text
    return text.replace(".", decimal_sign())


def in_words(number: int) -> str:
    """Return a small number as a word."""
    return _NUMBERS[number] if 0 <= number < len(_NUMBERS) else str(number)


def listed(words: list[str]) -> str:
    """Join words as a sentence does.

    Example:
        >>> listed(["a", "b", "c"])
        'a, b and c'
    """
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]


def sentence(text: str) -> str:
    """Return the text with a capital first letter, the rest as it is."""
    return text[:1].upper() + text[1:]
