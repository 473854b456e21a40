"""The measure unit of a column, guessed by its name or its numbers."""

from __future__ import annotations

import pytest

from eol.feeds.foreign_columns import Looks, Sent
from eol.feeds.guess_units import sent_unit
from eol.plant.settings import ConditionSettings

PRESSURE = ConditionSettings(name="pressure_kpa", lower=220, upper=280, measure_unit="kPa")


@pytest.mark.parametrize(
    ("name", "cells", "unit"),
    [
        ("Druck [bar]", ("2.5",), "bar"),
        ("druck_psi", ("36",), "psi"),
        ("Druck", ("2,5", "2,4"), "bar"),
        ("Druck", ("250",), None),
        ("Druck [kPa]", ("2.5",), None),
        ("Druck [V]", ("250",), None),
        ("Druck", ("9999999",), None),
        ("Druck", (), None),
    ],
)
def test_unit_of_a_condition(name: str, cells: tuple[str, ...], unit: str | None) -> None:
    """The name goes first, then the unit in which the readings lie within the limits."""
    assert sent_unit(Sent((name,), cells, Looks.NUMBER), PRESSURE) == unit


def test_condition_without_a_unit() -> None:
    """What is declared without a unit is taken as it comes."""
    bare = ConditionSettings(name="count", lower=1)
    assert sent_unit(Sent(("count",), ("3",), Looks.NUMBER), bare) is None
