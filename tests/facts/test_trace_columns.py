"""Factors: latest values, set points, lots by range, and places in words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import builders as b
import plants
import pytest

from eol.facts.trace import asked
from eol.facts.trace_columns import Column, trace_columns
from eol.facts.trace_units import trace_units
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy

VINS = [f"U{number:02d}" for number in range(20)]


def told(vin: str, name: str, clock: str = "05:00", **fields: Any) -> dict[str, Any]:
    """An attribute as its feed sends it."""
    return {"vin": vin, "name": name, "at": b.at(clock), **fields}


@pytest.fixture(scope="module")
def columns(
    blank_plant: PlantFolder, tmp_path_factory: pytest.TempPathFactory
) -> dict[str, Column]:
    """The factors of twenty units of a made plant, by name."""
    plant = plants.made(tmp_path_factory.mktemp("columns") / "plant")
    attributes = [
        row
        for n, vin in enumerate(VINS)
        for row in (
            told(vin, "torque", number_value=10 + n / 10),
            told(vin, "tool", number_value=n % 3),
            told(vin, "robot", text_value="R1", station=f"C{n % 2}"),
        )
    ]
    attributes.append(told("U00", "robot", "05:30", text_value="R2", station="C0"))
    lots = [
        {"part": "clip", "lot": "L1", "from_build_seq": 0, "to_build_seq": 9},
        {"part": "clip", "lot": "L2", "from_build_seq": 5, "to_build_seq": 14},
    ]
    runs = [row for vin in VINS for row in b.run(vin, "08:00", "fail", "LEAK/RRQ")]
    plants.load(
        plant,
        b.file("units", [b.unit(vin, build_seq=n) for n, vin in enumerate(VINS)]),
        b.file("attributes", attributes),
        b.file("lots", lots),
        b.file("water", runs),
    )
    return {column.name: column for column in _read(plant)}


def _read(plant: PlantFolder) -> Iterator[Column]:
    with open_copy(plant) as copy:
        question, told = asked(copy, "LEAK", zone=None, test=None, since=None, until=None)
        units = trace_units(copy, question, only_some=told["only_some"])
        yield from trace_columns(copy, question, units)


def values(column: Column) -> list[str | None]:
    """What each unit has, in words."""
    return [column.labels[code] if code >= 0 else None for code in column.codes.tolist()]


def test_numbers_and_set_points(columns: dict[str, Column]) -> None:
    """Many values are a number, a few a category."""
    assert columns["torque"].is_number
    assert sorted(columns["torque"].values.tolist())[0] == 10
    assert sorted(columns["tool"].labels) == ["0.0", "1.0", "2.0"]


def test_latest_value_counts(columns: dict[str, Column]) -> None:
    """Of two values of a unit the latest (view attribute_latest)."""
    assert sorted(set(values(columns["robot"]))) == ["R1", "R2"]
    assert values(columns["robot"]).count("R2") == 1
    assert sorted(columns["station of robot"].labels) == ["C0", "C1"]


def test_lots_by_range(columns: dict[str, Column]) -> None:
    """A unit may have one lot or another; beyond all ranges none is known."""
    told = values(columns["lot of clip"])
    counts = {lot: told.count(lot) for lot in set(told)}
    assert counts == {"L1": 5, "L1 or L2": 5, "L2": 5, None: 5}


def test_places_and_hours_in_words(columns: dict[str, Column]) -> None:
    """The hour is the plant's own."""
    assert columns["hour of the test"].labels == ["08:00 to 09:00"]
    assert columns["station"].labels
