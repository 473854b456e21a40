"""Numbers, dates and counts in words, as the figures write them: page and mail say the same."""

from __future__ import annotations

from eol.figures.formats import (
    Form,
    day_words,
    decimal_sign,
    in_words,
    listed,
    moment_words,
    percent,
    period_noun,
    plain,
    point_words,
    sentence,
    short_day,
    time_words,
    written_as,
)

__all__ = [
    "Form",
    "day_words",
    "decimal_sign",
    "in_words",
    "listed",
    "moment_words",
    "percent",
    "period_noun",
    "plain",
    "point_words",
    "sentence",
    "short_day",
    "time_words",
    "written_as",
]
