"""Stamps: written for the touched units alone, the same as from nothing."""

from __future__ import annotations

import shutil
from pathlib import Path

import builders as b
import plants
import pytest
from store_tables import moved_by_stamping_all

from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder
from eol.store.connect import open_store, write_lock
from eol.store.stamp import stamp_units


@pytest.fixture
def small(small_plant: PlantFolder, tmp_path: Path) -> PlantFolder:
    """The small plant, to write to."""
    return PlantFolder(shutil.copytree(small_plant.root, tmp_path / "plant"))


def spoil(folder: PlantFolder, *vins: str) -> None:
    """Write a wrong stamp to every run of some units."""
    with write_lock(folder), open_store(folder) as store:
        for short in vins:
            store.execute(
                "UPDATE run SET attempt = 99 WHERE vin = $vin", {"vin": plants.vin(short)}
            )


def spoiled(folder: PlantFolder) -> set[str]:
    """The units whose runs have a wrong stamp."""
    return {row["vin"] for row in plants.rows(folder, "run", attempt=99)}


def test_nothing_touched_nothing_stamped(small: PlantFolder) -> None:
    """Between loads no unit is due."""
    with write_lock(small), open_store(small) as store:
        assert store.view("touched_unit").is_empty()
        assert stamp_units(store) == 0


def test_stamps_are_those_from_nothing(small: PlantFolder) -> None:
    """Stamping every unit again changes nothing."""
    assert moved_by_stamping_all(small) == []


def test_proof_sees_a_wrong_stamp(small: PlantFolder) -> None:
    """The comparison with stamps from nothing does see a stamp that is wrong."""
    spoil(small, "U1")
    assert {line.split(":")[0] for line in moved_by_stamping_all(small)} == {"main.run"}


TOUCHING = {
    "run": b.file("water", b.run("U1", "15:00")),
    "finding": b.file(
        "water_findings",
        [
            {
                "vin": "U1",
                "station": "W1",
                "started_at": b.run("U1", "08:00")[0]["started_at"],
                "code": "HISS",
            }
        ],
    ),
    "reading": b.file(
        "water_readings",
        [
            {"vin": "U1", "station": "W1", "started_at": b.run("U1", "08:00")[0]["started_at"]}
            | {"name": "pressure_kpa", "value": 240, "sample": 2}
        ],
    ),
    "repair": b.file("repairs", [b.repair("U1")]),
    "event": b.file("events", [b.event("U1", "hold")]),
    "attribute": b.file("attributes", [{"vin": "U1", "name": "roof", "text_value": "opening"}]),
    "units row": b.file("units", [b.unit("U1", line="2")]),
    "correction": b.file(
        "corrections",
        [{"vin": "U1", "field": "kind", "value": "trial", "made_at": b.at("13:00")}],
    ),
}
"""A row of each feed that touches unit U1."""


@pytest.mark.parametrize("what", TOUCHING)
def test_row_touches_its_unit_alone(small: PlantFolder, what: str) -> None:
    """Each row stamps its own unit again and leaves the others as they are."""
    spoil(small, "U1", "U2")
    plants.load(small, TOUCHING[what])
    assert spoiled(small) == {"U2"}


def test_catalogue_touches_units_with_its_code(small: PlantFolder) -> None:
    """A row of the catalogue stamps the units on which its code was found."""
    spoil(small, "U1", "U2", "U3")
    plants.load(
        small,
        b.file("defect_codes", [b.code("HISS", owner_area="equipment")], name="defect_codes_2"),
    )
    assert spoiled(small) == {"U1", "U2"}


def test_calendar_touches_units_of_its_days(small: PlantFolder) -> None:
    """A row of the calendar stamps the units with runs near its window."""
    spoil(small, "U1", "U9")
    window = {"production_date": "2026-09-08", "shift": "E"}
    window |= {"starts_at": b.at("06:00"), "ends_at": b.at("13:00")}
    plants.load(small, b.file("shifts", [window]))
    assert spoiled(small) == set()


def test_what_an_interrupted_load_left_is_stamped_next(small: PlantFolder) -> None:
    """Units noted as touched are stamped by the next ingest, whatever it loads."""
    spoil(small, "U1", "U2")
    with write_lock(small), open_store(small) as store:
        store.execute("INSERT INTO touched_unit VALUES ($vin, NULL)", {"vin": plants.vin("U1")})
    assert ingest(small, []).units == 1
    assert spoiled(small) == {"U2"}
