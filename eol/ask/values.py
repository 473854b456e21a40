"""`name=value` as a person types it in, the value for `$name` out."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date, datetime

from eol.errors import UsageError

_FORM = re.compile(r"([a-z_][a-z0-9_]*)=(.*)", re.IGNORECASE | re.DOTALL)
_WORDS: dict[str, object] = {"": None, "null": None, "true": True, "false": False}


def parse_values(texts: Iterable[str]) -> dict[str, object]:
    """Return the values of `name=value` texts by their names.

    Raises:
        UsageError: a text has not this form.
    """
    values: dict[str, object] = {}
    for text in texts:
        found = _FORM.fullmatch(text)
        if found is None:
            raise UsageError(f"'{text}' is not name=value", hint="Such as --set code=WL-SEAM.")
        values[found[1]] = parse_value(found[2])
    return values


def parse_value(text: str) -> object:
    """Return what a text means: null, yes or no, a number, a date, a time, else the text itself.

    A text in quotes stays one, as `'007'`.

    Example:
        >>> parse_value("7"), parse_value("'007'"), parse_value("2026-09-14")
        (7, '007', datetime.date(2026, 9, 14))
    """
    bare = text.strip()
    if len(bare) > 1 and bare[0] == bare[-1] and bare[0] in "'\"":
        return bare[1:-1]
    if bare.lower() in _WORDS:
        return _WORDS[bare.lower()]
    for meaning in (_whole, _number, date.fromisoformat, datetime.fromisoformat):
        try:
            return meaning(bare)
        except ValueError:
            continue
    return text


def _whole(text: str) -> int:
    if not re.fullmatch(r"-?(0|[1-9]\d{0,17})", text):
        raise ValueError(text)
    return int(text)


def _number(text: str) -> float:
    if not re.fullmatch(r"-?\d+\.\d+", text):
        raise ValueError(text)
    return float(text)
