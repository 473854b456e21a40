"""The two small languages of plant.toml and the catalogue in, clauses and comparisons out.

`applies_when` says which units can have something (rule 10): `roof=opening & model=WAG|VAN`.
`defect_when` says which findings are defects (rule 8): `rating <= 6 & severity != D`.
A value that holds one of the signs & | = < > ! stands in double quotes.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from eol.plant.nearest import nearest

NUMBER_FIELDS = ("rating", "quantity")
TEXT_FIELDS = ("severity", "code", "zone", "step")
_COMPARISON = re.compile(r"\s*(?P<name>[^<>=!]*?)\s*(?P<sign><=|>=|!=|=|<|>)\s*(?P<value>.*?)\s*")
_NUMBER = re.compile(r"[+-]?\d+(\.\d+)?")
_OUTSIDE_QUOTES = r'(?=(?:[^"]*"[^"]*")*[^"]*$)'
_SIGNS = re.compile(r"[&|=<>!]")


@dataclass(frozen=True, slots=True)
class Clause:
    """One clause of an applies_when: it holds when the attribute has one of the values."""

    number: int
    name: str
    values: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """One comparison of a defect_when; number_value or text_value is set, never both."""

    name: str
    comparison: str
    number_value: float | None
    text_value: str | None


def parse_applies_when(text: str) -> tuple[Clause, ...]:
    """Read which units can have something, as clauses that must all hold.

    Returns:
        The clauses, numbered from 1; none for an empty text, which holds for every unit.

    Raises:
        ValueError: a clause is not of the form name=value or name=value|value.

    Example:
        >>> parse_applies_when("model=WAG|VAN")
        (Clause(number=1, name='model', values=('WAG', 'VAN')),)
    """
    if not text.strip():
        return ()
    parts = _parts(text, "&")
    clauses = tuple(_clause(number, part) for number, part in enumerate(parts, start=1))
    names = [clause.name for clause in clauses]
    for name in names:
        if names.count(name) > 1:
            raise ValueError(f"names {name} twice; put its values into one clause, {name}=a|b")
    return clauses


def parse_defect_when(text: str) -> tuple[Comparison, ...]:
    """Read which findings are defects, as comparisons that must all hold.

    Returns:
        The comparisons; none for an empty text, which makes every finding a defect.

    Raises:
        ValueError: a comparison cannot be read or compares what a finding does not have.

    Example:
        >>> parse_defect_when("rating <= 6")
        (Comparison(name='rating', comparison='<=', number_value=6.0, text_value=None),)
    """
    return tuple(_comparison(part) for part in _parts(text, "&")) if text.strip() else ()


def _clause(number: int, part: str) -> Clause:
    name, sign, values = part.partition("=")
    if not name.strip() or not sign or re.search(r"[<>!|]", name):
        raise ValueError(f"'{part.strip()}' is no clause; write name=value or name=value|value")
    return Clause(number, _bare(name), tuple(_value(value, part) for value in _parts(values, "|")))


def _comparison(part: str) -> Comparison:
    match = _COMPARISON.fullmatch(part)
    if match is None or not match["name"]:
        raise ValueError(f"'{part.strip()}' is no comparison; write one such as rating <= 6")
    name, sign, value = match["name"], match["sign"], _value(match["value"], part)
    if name in NUMBER_FIELDS:
        return Comparison(name, sign, _number(value, name), None)
    if name not in TEXT_FIELDS:
        raise ValueError(_unknown_field(name))
    if sign not in ("=", "!="):
        raise ValueError(f"compares {name} by {sign}; a text is compared by = or != alone")
    return Comparison(name, sign, None, value)


def _parts(text: str, sign: str) -> list[str]:
    """Split at a sign, but not inside double quotes."""
    return re.split(re.escape(sign) + _OUTSIDE_QUOTES, text)


def _value(text: str, part: str) -> str:
    """A value without its blanks and quotes; it may hold a sign inside quotes only."""
    value = _bare(text)
    if not value:
        raise ValueError(f"'{part.strip()}' has no value after its sign")
    if value == text.strip() and (sign := _SIGNS.search(value)):
        raise ValueError(f"'{part.strip()}' has a stray {sign[0]}; put such a value in quotes")
    return value


def _bare(text: str) -> str:
    text = text.strip()
    quoted = len(text) >= 2 and text[0] == text[-1] == '"'
    return text[1:-1] if quoted else text


def _number(value: str, name: str) -> float:
    if not _NUMBER.fullmatch(value):
        raise ValueError(f"compares {name} with '{value}', which is no number")
    return float(value)


def _unknown_field(name: str) -> str:
    known = (*NUMBER_FIELDS, *TEXT_FIELDS)
    near = nearest(name, known)
    hint = f"the nearest right one is {near}" if near else "it has " + ", ".join(known)
    return f"compares {name}, which a finding does not have; {hint}"
