"""A column that is perhaps a condition in, the measure unit it seems to be sent in out."""

from __future__ import annotations

from statistics import median

from eol.feeds.foreign_columns import Sent
from eol.feeds.foreign_words import bracketed_unit, plain
from eol.feeds.measure_units import conversion, known_units
from eol.plant.settings import ConditionSettings


def sent_unit(one: Sent, condition: ConditionSettings) -> str | None:
    """Return the measure unit of a column where it is not the declared one; None where it is.

    The name tells it, in brackets or as its last word; else the unit in which the middle of the
    readings lies within the condition's limits.
    """
    declared = condition.measure_unit
    if declared is None:
        return None
    named = _named_unit(one.name, declared)
    unit = named or _unit_within_limits(one, condition, declared)
    return unit if unit != declared else None


def _named_unit(name: str, declared: str) -> str | None:
    told = bracketed_unit(name)
    if told is not None:
        return told if _converts(told, declared) else None
    last = name.replace(" ", "_").rpartition("_")[2]
    return next((unit for unit in _alike(declared) if plain(unit) == plain(last) != ""), None)


def _unit_within_limits(one: Sent, condition: ConditionSettings, declared: str) -> str | None:
    numbers = [float(cell.replace(",", ".")) for cell in one.cells]
    if not numbers or (condition.lower is None and condition.upper is None):
        return None
    middle = median(numbers)
    lower = -float("inf") if condition.lower is None else condition.lower
    upper = float("inf") if condition.upper is None else condition.upper
    fitting = (u for u in _alike(declared) if lower <= conversion(u, declared).of(middle) <= upper)
    return next(fitting, None)


def _alike(declared: str) -> tuple[str, ...]:
    """The units of the same quantity, the declared one first."""
    return (declared, *(unit for unit in known_units() if _converts(unit, declared)))


def _converts(sent: str, declared: str) -> bool:
    try:
        conversion(sent, declared)
    except ValueError:
        return False
    return True
