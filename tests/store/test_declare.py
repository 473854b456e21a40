"""plant.toml against the store: what is to come is free, what was counted needs a reason (rule 4)."""

from __future__ import annotations

import json
import shutil
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import builders as b
import plants
import pytest
from partly import every_third
from store_tables import changed, tables

from eol.errors import PlantFileError
from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder
from eol.plant.settings import read_settings
from eol.store.connect import open_store, write_lock
from eol.store.declare import declare

TOMORROW = date(2026, 9, 9)


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """A plant with one run, at 08:00 on 2026-09-08, whose past stays as it is."""
    made = plants.made(tmp_path_factory.mktemp("kept") / "plant")
    plants.load(made, b.file("water", b.run("U1", "08:00")))
    return made


@pytest.fixture
def ran(kept: PlantFolder, tmp_path: Path) -> PlantFolder:
    """The same plant, to write to."""
    return PlantFolder(shutil.copytree(kept.root, tmp_path / "plant"))


def water(**fields: Any) -> dict[str, Any]:
    """The tests of the plant with some of the water test changed."""
    test = b.declared_test(conditions=[b.pressure()]) | fields
    return {"electrical": b.declared_test(), "water": test}


def declared(folder: PlantFolder, **sections: Any) -> None:
    """Load nothing under a plant.toml with other sections."""
    plants.declare(folder, b.settings(**sections))
    ingest(folder, [])


def plant(**fields: Any) -> dict[str, Any]:
    """The section [plant] with some keys changed."""
    return dict(b.settings()["plant"]) | fields


PAST: dict[str, dict[str, Any]] = {
    "condition_limit": {"test": water(condition=[b.pressure(lower=260.0)])},
    "test_plan": {"test": water(plan=[{"valid_from": date(2026, 1, 1), "required": "when_run"}])},
    "test_definition": {"test": water(length=100)},
    "test_step": {"test": water(steps=["rear", "front"])},
    "defect_condition": {"test": water(defect_when="rating <= 6")},
    "applies": {"test": water(plan=[{"valid_from": date(2026, 1, 1), "applies_when": "roof=a"}])},
    "plant_setting": {"plant": plant(settle_hours=2)},
    "proof_event": {"plant": plant(proof_at=["ship"])},
    "demerit_weight": {"plant": plant(demerits={"A": 90, "B": 50, "C": 10, "D": 1})},
    "disturbs": {"disturbs": [{"action": "resealed", "tests": ["water"]}]},
    "clock_offset": {
        "clock_offset": [{"station": "W1", "valid_from": date(2026, 9, 8), "seconds": 9}]
    },
    "shift_window": {
        "shift": [{"name": "E", "starts": "07:00", "ends": "14:00", "days": "mon-sun"}]
    },
    "reference": {"reference": [{"vin": plants.vin("U1"), "test": "water", "code": "LEAK"}]},
}
"""A change of each declared table that moves the past."""

FREE: dict[str, dict[str, Any]] = {
    "the plant's name": {"plant": plant(name="Quillbrook South")},
    "how long silence may last": {"plant": plant(silence_limit=7200)},
    "a test's title": {"test": water(title="Rain")},
    "a station": {"station": [{"name": "W2", "test": "water", "bays": ["A"]}]},
    "a reference unit": {"reference": [{"vin": plants.vin("R1"), "test": "water", "code": "LEAK"}]},
    "a limit from tomorrow on": {
        "test": water(condition=[b.pressure(), b.pressure(valid_from=TOMORROW, lower=240.0)])
    },
    "a clock offset to come": {
        "clock_offset": [{"station": "W1", "valid_from": TOMORROW, "seconds": 60}]
    },
    "a test to come": {
        "test": water() | {"headlamp": b.declared_test() | {"plan": [{"valid_from": TOMORROW}]}}
    },
}
"""Changes that move no figure that was counted."""


@pytest.mark.parametrize("table", every_third(PAST))
def test_past_is_kept(kept: PlantFolder, table: str) -> None:
    """A change of the past is refused, naming what it is about and how to go on; nothing is changed."""
    before = tables(kept, without={})
    said = rf"changes the past: .*{table}[\s\S]*--rewrite-history"
    with pytest.raises(PlantFileError, match=said):
        declared(kept, **PAST[table])
    assert changed(before, tables(kept, without={})) == []


@pytest.mark.parametrize("change", every_third(FREE))
def test_what_is_to_come_is_free(kept: PlantFolder, change: str) -> None:
    """A change that moves no counted figure needs no reason."""
    declared(kept, **FREE[change])
    assert plants.count(kept, "history_rewrite") == 0


def test_kind_that_the_units_feed_tells_is_no_matter_of_the_list(folder: PlantFolder) -> None:
    """A unit whose kind was sent may join the reference vehicles and leave them: its kind stays (rule 13)."""
    kinds = b.file("units", [b.unit("U1", kind="trial")])
    plants.load(folder, b.file("water", b.run("U1")), kinds)
    for sections in (PAST["reference"], {}):
        declared(folder, **sections)
        assert plants.column(folder, "unit", "kind", vin="U1") == ["trial"]
    assert plants.count(folder, "history_rewrite") == 0


def test_kind_that_a_correction_tells_neither(folder: PlantFolder) -> None:
    """A unit whose kind was mended may join the reference vehicles: the correction goes first (rule 13)."""
    mended = {"vin": plants.vin("U1"), "field": "kind", "value": "trial", "reason": "a trial build"}
    mended |= {"made_at": b.at("10:00"), "made_by": "Ann"}
    plants.load(folder, b.file("water", b.run("U1")), b.file("corrections", [mended]))
    declared(folder, **PAST["reference"])
    assert plants.column(folder, "unit", "kind", vin="U1") == ["trial"]


def test_reference_vehicle_before_the_first_run(folder: PlantFolder) -> None:
    """Before anything has run a unit of the schedule joins the reference vehicles freely, at once (rule 13)."""
    plants.load(folder, b.file("units", [b.unit("U1", kind=None)]))
    declared(folder, **PAST["reference"])
    assert plants.column(folder, "unit", "kind", vin="U1") == ["reference"]


def test_reference_vehicle_of_no_schedule(folder: PlantFolder) -> None:
    """A vehicle that plant.toml names is a reference unit though the units feed never told of it (rule 13)."""
    plants.load(folder, b.file("water", b.run("U1")))
    plants.declare(folder, b.settings(**PAST["reference"]))
    ingest(folder, [], reason="it was the leaker all along")
    assert plants.column(folder, "unit", "kind", vin="U1") == ["reference"]
    assert plants.column(folder, "reference_check", "good") == [False]
    assert plants.count(folder, "first_run") == 0
    plants.load(folder, b.file("units", [b.unit("U1")]))
    assert plants.column(folder, "unit", "kind", vin="U1") == ["production"]


def test_before_the_first_run_all_is_free(folder: PlantFolder) -> None:
    """In a plant without data plant.toml may still change in everything."""
    for table in PAST:
        plants.declare(folder, b.settings(**PAST[table]))
        with write_lock(folder), open_store(folder) as store, store.transaction():
            assert not declare(store, read_settings(folder.toml), reason=None, now=b.MADE_AT)


def test_rewritten_past_is_kept_beside_its_reason(ran: PlantFolder) -> None:
    """A rewrite keeps when, why and what stood before, whole."""
    plants.declare(ran, b.settings(**PAST["condition_limit"]))
    now = datetime(2026, 11, 1, tzinfo=UTC)
    ingest(ran, [], reason="the gauge was wrong", now=now)
    [row] = plants.rows(ran, "history_rewrite")
    assert (row["made_at"], row["reason"]) == (now, "the gauge was wrong")
    assert json.loads(row["was"])["condition_limit"][0]["lower"] == 220.0
    assert plants.column(ran, "condition_limit", "lower") == [260.0]


def test_reason_without_a_change_is_not_kept(ran: PlantFolder) -> None:
    """A reason is kept where the past was rewritten, and nowhere else."""
    ingest(ran, [], reason="for nothing")
    assert plants.count(ran, "history_rewrite") == 0


def test_calendar_reaches_a_week_beyond_the_data(ran: PlantFolder) -> None:
    """Windows stand from starts_on to eight days after the data clock, three a day."""
    days = set(plants.column(ran, "shift_window", "production_date"))
    assert min(days) == date(2026, 1, 1)
    assert max(days) == date(2026, 9, 8) + timedelta(days=8)
    assert plants.count(ran, "shift_window") == 3 * len(days)


def test_row_of_the_feed_replaces_its_window(ran: PlantFolder) -> None:
    """A row of the feed `shifts` stands in place of plant.toml's window, now and later (rule 3)."""
    window = {"production_date": "2026-09-08", "shift": "E", "crew": "blue"}
    window |= {"starts_at": b.at("05:00"), "ends_at": b.at("14:00")}
    plants.load(ran, b.file("shifts", [window]))
    plants.load(ran, b.file("water", b.run("U2", "05:30")))
    [row] = plants.rows(ran, "shift_window", production_date=date(2026, 9, 8), shift="E")
    assert (row["crew"], f"{row['starts_at']:%H:%M}") == ("blue", "03:00")
    assert plants.column(ran, "run", "shift", vin="U2") == ["E"]


def test_clauses_of_the_catalogue_are_rows(ran: PlantFolder) -> None:
    """Each value of each clause of applies_when is a row, so that SQL sees them (rule 10)."""
    drain = b.code("DRAIN", test="water", applies_when="roof=opening & model=WAG|VAN")
    plants.load(ran, b.file("defect_codes", [drain]))
    found = [(r["clause"], r["name"], r["value"]) for r in plants.rows(ran, "applies")]
    assert sorted(found) == [(1, "roof", "opening"), (2, "model", "VAN"), (2, "model", "WAG")]
    assert set(plants.column(ran, "applies", "owner")) == {"code:DRAIN:water"}
