"""The history of each code over the shifts: settled ones, on units at risk."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from eol.facts.code_series import CodeHistory, code_history, zone_series

DAYS = [(date(2026, 9, 1) + timedelta(days=day), "day") for day in range(3)]


def rows(**columns: list[Any]) -> list[dict[str, Any]]:
    """One row a shift of the water test."""
    return [
        {"production_date": day, "shift": shift, "test": "water", "code": "A"}
        | {name: values[at] for name, values in columns.items()}
        for at, (day, shift) in enumerate(DAYS)
    ]


def history(**more: Any) -> CodeHistory:
    """Three shifts of a code, the second one not settled."""
    given = {
        "ftt": rows(tested=[100, 100, 100], settled=[True, False, False]),
        "codes": rows(defects=[3, 4, 5]),
        "spared": [],
        "places": [],
        "known": [{"test": "water", "code": "A", "before": True, "safety_related": None}],
    }
    return code_history(DAYS, **(given | more))


def test_unsettled_shifts_have_no_units() -> None:
    """A shift that is not settled counts neither units nor defects; the present one always does."""
    (series,) = history().series()
    assert series.at_risk == (100, 0, 100)
    assert series.counts == (3, 0, 5)


def test_units_at_risk_and_crude() -> None:
    """Units that cannot have the code are left out, but not where all tested ones are asked for."""
    spared = history(spared=rows(spared=[80, 80, 40]))
    assert spared.series()[0].at_risk == (20, 0, 60)
    assert spared.series(crude=True)[0].at_risk == (100, 0, 100)


def test_places_follow_the_units_at_risk() -> None:
    """A unit's place is among all units at risk since the first shift."""
    found = history(places=rows(place=[50, 7, 100]), spared=rows(spared=[80, 80, 40]))
    assert found.series()[0].places == (10, 80)


def test_zones_are_counted_over_all_tests() -> None:
    """Of several tests the one with most units tells how many could show a defect in a zone."""
    tested = rows(tested=[100, 90, 100], settled=[True, True, True])
    tested += [row | {"test": "electrical", "tested": 50} for row in tested]
    found = [row | {"zone": "DASH"} for row in rows(defects=[1, 0, 2])]
    (zone,) = zone_series(DAYS, ftt=tested, zones=found)
    assert (zone.code, zone.counts, zone.at_risk) == ("DASH", (1, 0, 2), (100, 90, 100))
