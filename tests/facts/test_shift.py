"""The facts of a shift, read from a real published copy of a small plant."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from builders import TUESDAY, at, code, event, file, plant_toml, run, settings, unit, write_files
from second_opinion import Plant

from eol.facts.shift import ShiftFacts, shift_facts
from eol.load.ingest import ingest
from eol.plant.folder import init_folder
from eol.store.connect import open_copy
from eol.store.database import Database

V1, V2, V3, V4, V5, V6, V9 = (f"0ZZKWAG0XT000000{number}" for number in (1, 2, 3, 4, 5, 6, 9))
VINS = (V1, V2, V3, V4, V5, V6)


def plant() -> Plant:
    """Six units: V1 leaks, V2 is void and shipped, V3 has a safety-related fault, V6 is untested."""
    units = [unit(vin, line_off_at=at("07:00")) for vin in VINS]
    electrical = [row for vin in VINS[:5] for row in run(vin, "07:30", test="electrical")]
    faulty = run(V3, "07:40", "fail", "ISO/HV-PACK", test="electrical")
    water = [*run(V1, "08:00", "fail", "LEAK/RRQ"), *run(V2, "08:05", pressure_kpa=180.0)]
    water += [row for vin in VINS[2:5] for row in run(vin, "08:10")]
    next_shift = [*run(V9, "15:00"), *run(V9, "15:10", test="electrical")]
    codes = [
        code("LEAK", test="water", title="Leak, rear quarter"),
        code("ISO", test="electrical", severity="A", safety_related=True, handling="Keep away."),
    ]
    zone = {"zone": "RRQ", "test": None, "title": "Rear quarter", "cell": "rear-right-mid"}
    return Plant(
        settings(),
        [
            file("units", units),
            file("defect_codes", codes),
            file("zones", [zone | {"outline": None, "hv_near": False}]),
            file("electrical", [*electrical, *faulty, *next_shift[1:]]),
            file("water", [*water, *next_shift[:1]]),
            file("events", [event(V2, "ship", "12:00", place="gate 1")]),
        ],
    )


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Database]:
    """The published copy of the small plant."""
    root = tmp_path_factory.mktemp("made") / "plant"
    folder = init_folder(root, name="Quillbrook", starts_on=TUESDAY)
    made = plant()
    folder.toml.write_text(plant_toml(made.settings), encoding="utf-8")
    _, paths = write_files(made, folder.root / "sent")
    ingest(folder, paths)
    with open_copy(folder) as database:
        yield database


@pytest.fixture(scope="module")
def facts(copy: Database) -> ShiftFacts:
    """The early shift of that day."""
    return shift_facts(copy, production_date=TUESDAY, shift="E", target={"line_ftt": 0.9})


@pytest.mark.slow
def test_header(facts: ShiftFacts) -> None:
    """Window and data clock are plant-local, and both stations were heard from afterwards."""
    header = facts.header
    assert (header.plant, f"{header.starts_at:%H:%M}", f"{header.ends_at:%H:%M}") == (
        "Quillbrook",
        "06:00",
        "14:00",
    )
    assert f"{header.data_clock:%H:%M}" == "15:10"
    assert header.complete


def test_tests_of_the_shift(facts: ShiftFacts) -> None:
    """A void pass leaves its unit pending and untested (rules 4 and 9)."""
    water = next(series for series in facts.tests if series.test == "water")
    assert (water.now.tested, water.now.passed_first, water.pending, water.void_runs) == (
        4,
        3,
        1,
        1,
    )
    assert not water.limits_known


@pytest.mark.slow
def test_strip(facts: ShiftFacts) -> None:
    """V2 and V6 lack a counted run; the line has no FTT while they are undecided (rule 11)."""
    assert (facts.strip.built, facts.strip.tested_in_full) == (6, 4)
    assert facts.strip.line_ftt.value is None
    assert facts.strip.line_ftt.target == 0.9


def test_defects(facts: ShiftFacts) -> None:
    """One leak, at its zone, in its bay, on its unit."""
    assert [(row.code, row.defects) for row in facts.pareto.rows] == [("LEAK", 1)]
    assert [(zone.zone, zone.defects, zone.leading) for zone in facts.zones.placed] == [
        ("RRQ", 1, "LEAK")
    ]
    assert [(found.vin, found.code, found.status) for found in facts.units_with_code] == [
        (V1, "LEAK", "failed")
    ]
    assert {bay.name: bay.tested for bay in facts.bays} == {"E1": 5, "W1": 4}


def test_escape(facts: ShiftFacts) -> None:
    """V2 was shipped with a void water test (rule 14)."""
    assert [(one.vin, one.reason, one.event, one.in_shift) for one in facts.escapes] == [
        (V2, "void", "ship", True)
    ]


def test_safety_unit(facts: ShiftFacts) -> None:
    """V3 is listed by VIN with its handling words, although the finding came at a retest."""
    assert [(one.vin, one.code, one.handling) for one in facts.safety_units] == [
        (V3, "ISO", "Keep away.")
    ]


def test_open_units(facts: ShiftFacts) -> None:
    """What is not clear waits."""
    assert {(one.vin, one.test) for one in facts.open_units} >= {
        (V1, "water"),
        (V3, "electrical"),
    }


def test_empty_shift(copy: Database) -> None:
    """A shift in which nothing ran has facts too: nothing tested, nothing found."""
    facts = shift_facts(copy, production_date=TUESDAY, shift="N")
    assert (facts.tested, facts.pareto.rows, facts.strip.line_ftt.value) == (0, (), None)
    assert [series.title for series in facts.tests] == ["Electrical", "Water"]


def test_between_shifts(copy: Database) -> None:
    """The time between shifts has a page of its own, with no window."""
    facts = shift_facts(copy, production_date=TUESDAY, shift=None)
    assert (facts.header.shift, facts.header.starts_at, facts.tested) == (None, None, 0)
