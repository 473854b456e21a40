"""Units by VIN."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from eol.facts.units import NO_HANDLING, escapes, open_units, safety_units, units_with_code

TITLES = {"water": "Water test"}
NOON = datetime(2026, 9, 18, 12)


def waiting(vin: str, hours: float | None, **fields: Any) -> dict[str, Any]:
    """Return one row of `open_unit`."""
    empty = {"place": None, "codes": None, "handling": None, "loops": 1}
    base = {"vin": vin, "test": "water", "status": "failed", "waiting_for": "repair"}
    return base | {"hours": hours} | empty | fields


def test_longest_waiting_first() -> None:
    """Open units come by their hours; over a day is more than 24."""
    units = open_units([waiting("A", 3.0), waiting("B", 24.5), waiting("C", 24.0)], TITLES)
    assert [(unit.vin, unit.over_a_day) for unit in units] == [
        ("B", True),
        ("C", False),
        ("A", False),
    ]


def test_unit_that_waits_for_nothing_known_waits_for_a_decision() -> None:
    """All-null columns are no reason to lose a unit."""
    (unit,) = open_units([waiting("A", None, waiting_for=None, loops=None)], TITLES)
    assert (unit.waiting_for, unit.hours, unit.loops, unit.over_a_day) == (
        "decision",
        None,
        0,
        False,
    )


def test_escapes_of_the_shift_first() -> None:
    """Escapes of the shift stand before older ones, the newest first."""
    base = {"test": "water", "reason": "void", "event": "ship"}
    rows = [
        base | {"vin": "A", "event_at": NOON.replace(day=19), "in_shift": False},
        base | {"vin": "B", "event_at": NOON.replace(hour=9), "in_shift": True},
        base | {"vin": "C", "event_at": NOON, "in_shift": True},
    ]
    assert [unit.vin for unit in escapes(rows, TITLES)] == ["C", "B", "A"]


def test_safety_unit_always_has_words_beside_it() -> None:
    """Where the catalogue has no handling words, the page says so instead of saying nothing."""
    row = {
        "vin": "A",
        "test": "water",
        "code": "WL-SEAM",
        "code_title": None,
        "zone": "HV-TRAY",
        "found_at": NOON,
        "in_shift": True,
        "status": "passed",
        "place": None,
        "handling": None,
    }
    assert safety_units([row], TITLES)[0].handling == NO_HANDLING


def test_units_with_a_code_keep_their_order() -> None:
    """Defects come by test, code and time."""
    base = {"zone": None, "station": "W1", "bay": None, "status": None, "place": None}
    rows = [
        base | {"test": "water", "code": code, "vin": vin, "found_at": at, "handling": None}
        for code, vin, at in (("B", "1", NOON), ("A", "3", NOON), ("A", "2", NOON.replace(hour=7)))
    ]
    assert [unit.vin for unit in units_with_code(rows)] == ["2", "3", "1"]
