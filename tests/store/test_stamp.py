"""Stamps: written for the touched units alone, the same as from nothing."""

from __future__ import annotations

import shutil
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import builders as b
import plants
import pytest
from second_opinion import File
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


def of_run(vin: str) -> b.Row:
    """What names the water run of a unit at 08:00."""
    [run] = b.run(vin, "08:00")
    return {name: run[name] for name in ("vin", "station", "started_at")}


TOUCHING: dict[str, File] = {
    "A1": b.file("water", b.run("A1", "15:00")),
    "A2": b.file("water_findings", [of_run("A2") | {"code": "HISS"}]),
    "A3": b.file("water_readings", [of_run("A3") | {"name": "wind", "value": 3}]),
    "A4": b.file("repairs", [b.repair("A4")]),
    "A5": b.file("events", [b.event("A5", "hold")]),
    "A6": b.file("attributes", [{"vin": "A6", "name": "roof", "text_value": "opening"}]),
    "A7": b.file("units", [b.unit("A7", line="2")]),
    "A8": b.file("corrections", [{"vin": "A8", "field": "kind", "value": "trial"}]),
}
"""A row of each feed and the unit that it touches."""


@pytest.fixture(scope="module")
def touched(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    """The units that were stamped again when all those files came; B1 is in none of them."""
    folder = plants.made(tmp_path_factory.mktemp("touched") / "plant")
    units = [*TOUCHING, "B1"]
    plants.load(folder, b.file("water", [row for vin in units for row in b.run(vin, "08:00")]))
    spoil(folder, *units)
    plants.load(folder, *(replace(file, name=f"{file.feed}_more") for file in TOUCHING.values()))
    return set(units) - spoiled(folder)


@pytest.mark.parametrize("vin", TOUCHING)
def test_row_touches_its_unit(touched: set[str], vin: str) -> None:
    """A run, finding, reading, repair, event, attribute, unit or correction stamps its unit again."""
    assert vin in touched


def test_other_units_are_left_alone(touched: set[str]) -> None:
    """A unit that no row names is not stamped."""
    assert "B1" not in touched


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


def test_run_corrected_to_another_unit_keeps_its_twin(folder: PlantFolder) -> None:
    """A re-export doubles what was sent, also where a correction has moved the run since (rules 2 and 17)."""
    vins = ("U1", "U2", "U3")
    plants.load(folder, b.file("water", [b.run(vin, "08:00")[0] for vin in vins]))
    [run] = plants.rows(folder, "run", vin=plants.vin("U1"))
    mended = {"run_id": run["run_id"], "field": "vin", "value": plants.vin("U9")}
    plants.load(folder, b.file("corrections", [mended | {"made_at": b.at("13:00")}]))
    again = [b.run(vin, "09:00")[0] for vin in vins]
    later = b.MADE_AT + timedelta(hours=1)
    plants.load(folder, b.file("water", again, made_at=later, name="water_2"))
    doubles = plants.rows(folder, "run", void_reason="suspect_double")
    assert sorted(row["vin"] for row in doubles) == list(vins)
    assert moved_by_stamping_all(folder) == []


def test_double_that_stands_under_a_unit_out_of_scope(folder: PlantFolder) -> None:
    """A pair of files keeps its twins when only the unit is stamped that one was sent for (rules 2 and 17)."""
    vins = ("U1", "U2", "U3")
    first = [b.run(vin, "08:00")[0] for vin in vins] + b.run("U1", "12:00")
    again = [b.run(vin, "09:00")[0] for vin in vins]
    later = [b.MADE_AT + timedelta(hours=hours) for hours in range(4)]
    plants.load(folder, b.file("water", first))
    plants.load(folder, b.file("water", again, made_at=later[1], name="water_2"))
    ids = {row["ended_at"]: row["run_id"] for row in plants.rows(folder, "run", vin_sent="U1")}
    moved = [
        {"run_id": ids[b.at(clock)], "field": "vin", "value": vin, "made_at": b.at("13:00")}
        for clock, vin in (("09:00", "U8"), ("12:00", "U9"))
    ]
    plants.load(folder, b.file("corrections", moved, made_at=later[2]))
    plants.load(folder, b.file("events", [b.event("U9", "hold")], made_at=later[3]))
    doubles = plants.rows(folder, "run", void_reason="suspect_double")
    assert sorted(row["vin"] for row in doubles) == ["U2", "U3", "U8"]
    assert moved_by_stamping_all(folder) == []
