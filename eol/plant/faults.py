"""What is wrong in plant.toml in, a sentence a person can act on out: key, value, what is right."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from eol.plant.nearest import nearest

Location = Sequence[str | int]

_LONGEST_VALUE = 60
_SECRET = re.compile(r"pass(word|wd|phrase)?$|secret|token|^user|^login", re.IGNORECASE)
_RIGHT = {
    "string_type": 'must be a text in quotes, such as "water"',
    "string_too_short": "must not be empty",
    "string_too_long": "must be one character",
    "int_type": "must be a whole number without quotes",
    "int_from_float": "must be a whole number without quotes",
    "float_type": "must be a number without quotes",
    "finite_number": "must be a finite number",
    "bool_type": "must be true or false, without quotes",
    "date_type": "must be a date without quotes, such as 2026-01-01",
    "datetime_type": "must be a date or a time without quotes, such as 2026-01-01T06:00:00",
    "time_type": 'must be a time of day such as "06:00"',
    "tuple_type": "must be a list in square brackets",
    "dict_type": "must be a table",
    "model_type": "must be a table",
    "missing": "is missing",
}


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong: where (the path of the key), what is right, and the value there."""

    location: tuple[str | int, ...]
    right: str
    value: object = None

    def __str__(self) -> str:
        key = key_path(self.location)
        shown = "" if self.value is None else f" = {_shown(self.location, self.value)}"
        return f"{key}{shown}: {self.right}"


def key_path(location: Location) -> str:
    """Return the path of a key as a person would write it.

    Example:
        >>> key_path(("test", "water", "condition", 0, "lower"))
        'test.water.condition[0].lower'
    """
    parts = [f"[{part}]" if isinstance(part, int) else f".{_bare_key(part)}" for part in location]
    return "".join(parts).removeprefix(".")


def structure_faults(error: ValidationError, model: type[BaseModel]) -> list[Fault]:
    """Return what a model found wrong in single values, in the order in which it found it."""
    return [_fault(detail, model) for detail in error.errors(include_url=False)]


def _fault(detail: ErrorDetails, model: type[BaseModel]) -> Fault:
    location = tuple(part for part in detail["loc"] if part != "[key]")
    if detail["type"] == "extra_forbidden":
        return Fault(location, _unknown_key(location, model), detail["input"])
    value = None if detail["type"] == "missing" else detail["input"]
    return Fault(location, _right(detail), value)


def _right(detail: ErrorDetails) -> str:
    kind, value, context = detail["type"], detail["input"], detail.get("ctx", {})
    if kind == "value_error":
        return str(context["error"])
    if kind == "literal_error":
        return _one_of(str(context["expected"]), value)
    if kind == "too_short":
        return f"must have at least {context['min_length']}"
    if kind == "tuple_type" and isinstance(value, dict):
        return "may come more than once; write its name in double brackets, [[…]]"
    if kind == "model_type" and isinstance(value, list):
        return "comes once; write its name in single brackets, […]"
    bounds = {"greater_than_equal": ("ge", "more"), "less_than_equal": ("le", "less")}
    if kind in bounds:
        name, side = bounds[kind]
        return f"must be {context[name]} or {side}"
    return _RIGHT.get(kind, detail["msg"])


def _one_of(expected: str, value: object) -> str:
    known = re.findall(r"'([^']*)'", expected)
    near = nearest(value, known) if isinstance(value, str) else None
    hint = f'; the nearest right one is "{near}"' if near else ""
    return "must be one of " + ", ".join(f'"{word}"' for word in known) + hint


def _unknown_key(location: Location, model: type[BaseModel]) -> str:
    key = str(location[-1])
    if location[0] == "mail" and _SECRET.search(key):
        return (
            "has no place in a file; set the environment variables "
            "EOL_MAIL_USER and EOL_MAIL_PASSWORD instead"
        )
    known = _known_keys(model, location[:-1])
    if near := nearest(key, known):
        return f"unknown key; the nearest right one is {near}"
    elsewhere = [name for name in _known_keys(model, ()) if key in _known_keys(model, (name,))]
    if elsewhere:
        return f"unknown key here; it belongs into [{elsewhere[0]}]"
    return "unknown key; known here are " + ", ".join(known)


def _known_keys(model: type[BaseModel], location: Location) -> list[str]:
    """The keys of the table at a place; none where there is no table of fixed keys."""
    here: Any = model
    for part in location:
        here = _inside(here, part)
    return list(_fields(here))


def _inside(kind: Any, part: str | int) -> Any:
    """What stands under a key or number of a table or list."""
    fields = _fields(kind)
    if fields:
        return fields.get(str(part))
    inner = get_args(kind)
    return inner[1 if isinstance(part, str) else 0] if inner else None


def _fields(kind: Any) -> dict[str, Any]:
    if not (isinstance(kind, type) and issubclass(kind, BaseModel)):
        return {}
    return {field.alias or name: field.annotation for name, field in kind.model_fields.items()}


def _bare_key(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else _quoted(key)


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _shown(location: Location, value: object) -> str:
    """The value as it stands in the file, cut to a line; a secret is never shown."""
    if isinstance(location[-1], str) and _SECRET.search(location[-1]):
        return "(hidden)"
    text = _written(value)
    return text if len(text) <= _LONGEST_VALUE else text[: _LONGEST_VALUE - 1] + "…"


def _written(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, date | datetime | time):
        return value.isoformat()
    if isinstance(value, dict):
        pairs = (f"{_bare_key(key)} = {_shown((key,), inner)}" for key, inner in value.items())
        return "{ " + ", ".join(pairs) + " }"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(_written(inner) for inner in value) + "]"
    return _quoted(value) if isinstance(value, str) else str(value)
