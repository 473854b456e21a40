"""Numbers, dates and counts in words, the same on every page and in every locale."""

from __future__ import annotations

from datetime import date, datetime

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def day_words(day: date) -> str:
    """Return a day with its weekday.

    Example:
        >>> day_words(date(2026, 9, 18))
        'Fri 18 Sep 2026'
    """
    return f"{_DAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]} {day.year}"


def time_words(moment: datetime | None) -> str:
    """Return the time of day; `?` where it is unknown."""
    return "?" if moment is None else f"{moment:%H:%M}"


def moment_words(moment: datetime | None) -> str:
    """Return day and time; `?` where they are unknown."""
    return "?" if moment is None else f"{day_words(moment)} {moment:%H:%M}"


def percent(share: float | None, digits: int = 1) -> str:
    """Return a share in percent; a dash where there is none.

    Example:
        >>> percent(0.8224), percent(None)
        ('82.2%', '–')
    """
    return "–" if share is None else f"{share:.{digits}%}"


def plain(number: float | None, digits: int = 1) -> str:
    """Return a number without a needless fraction; a dash where there is none.

    Example:
        >>> plain(4.0), plain(15.83)
        ('4', '15.8')
    """
    if number is None:
        return "–"
    return f"{number:.{digits}f}".removesuffix("." + "0" * digits) if digits else f"{number:.0f}"


def count(number: int, thing: str, things: str = "") -> str:
    """Return a number with its noun.

    Example:
        >>> count(1, "unit"), count(3, "escape")
        ('1 unit', '3 escapes')
    """
    return f"{number} {thing if number == 1 else things or thing + 's'}"


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
