"""The kinds of value that keys of plant.toml take: what was written in, a checked value out."""

from __future__ import annotations

import codecs
import re
from collections.abc import Callable
from datetime import date, datetime, time
from typing import Annotated, TypeVar

from pydantic import AfterValidator, BeforeValidator, Field, StringConstraints

from eol.plant.clock import parse_time_of_day, time_zone
from eol.plant.nearest import nearest
from eol.words import EventKind, Severity

DEMERITS = {"A": 100.0, "B": 50.0, "C": 10.0, "D": 1.0}
"""Weights of the severity classes where a plant sets none.

Source: D. C. Montgomery, Introduction to Statistical Quality Control, on demerit systems.
"""

Value = TypeVar("Value")
_MADE_AT = re.compile(r"\{made_at:[^{}]*%[^{}]*\}")


def _time_of_day(value: object) -> object:
    return parse_time_of_day(value) if isinstance(value, str) else value


def _as_moment(value: object) -> object:
    """A date means its first instant on the wall clock."""
    if isinstance(value, date) and not isinstance(value, datetime):
        return datetime.combine(value, time(0))
    return value


def _as_text(value: object) -> object:
    """A constant as a file would hold it: files are text."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    return str(value) if isinstance(value, int | float) else value


def readable(read: Callable[[str], object]) -> AfterValidator:
    """Hold that a text can be read by a function; the text itself is kept."""

    def check(text: str) -> str:
        read(text)
        return text

    return AfterValidator(check)


def check_encoding(text: str) -> None:
    """Raise ValueError where a text is the name of no encoding."""
    try:
        codecs.lookup(text)
    except LookupError:
        raise ValueError("is no encoding; write one such as utf-8 or cp1252") from None


def check_file_name_time(text: str) -> None:
    """Raise ValueError where a file-name pattern does not tell one time."""
    if len(_MADE_AT.findall(text)) != 1 or "/" in text:
        raise ValueError(
            "must be a file name with one {made_at:…}, such as WT_{made_at:%Y%m%d}.csv"
        )


def check_time_format(text: str) -> None:
    """Raise ValueError where a text is no time format."""
    if "%" not in text:
        raise ValueError('must be a format such as "%d.%m.%Y %H:%M:%S"')


def check_event_kind(text: str) -> None:
    """Raise ValueError where a text is no kind of event."""
    _known(text, [kind.value for kind in EventKind], "kind of event")


def check_address(text: str) -> None:
    """Raise ValueError where a text is not one mail address; nothing else may reach a header."""
    if not re.fullmatch(r"[^@\s<>,;]+@[^@\s<>,;]+", text):
        raise ValueError("must be one mail address such as quality@example")


def _known(word: str, words: list[str], what: str) -> None:
    if word not in words:
        near = nearest(word, words)
        hint = f"the nearest right one is {near}" if near else "known are " + ", ".join(words)
        raise ValueError(f"'{word}' is no {what}; {hint}")


def all_demerits(weights: dict[str, float]) -> dict[str, float]:
    """Return the weight of every severity class; raise ValueError for an unknown class."""
    for severity, weight in weights.items():
        _known(severity, [known.value for known in Severity], "severity class")
        if weight < 0:
            raise ValueError(f"the weight of {severity} must be 0 or more")
    return {**DEMERITS, **weights}


Many = Annotated[tuple[Value, ...], Field(strict=False)]
Text = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
Moment = Annotated[datetime, BeforeValidator(_as_moment)]
TimeOfDay = Annotated[time, BeforeValidator(_time_of_day)]
Constant = Annotated[str, BeforeValidator(_as_text)]
Zone = Annotated[str, readable(time_zone)]
Address = Annotated[str, readable(check_address)]
NotNegative = Annotated[int, Field(ge=0)]
Positive = Annotated[int, Field(ge=1)]
