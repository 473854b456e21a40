"""What is alarming: escapes, safety-related findings, one code in one zone within so many units."""

from __future__ import annotations

import json
from datetime import datetime

import builders as b
import plants
import pytest
from mail_plants import at

from eol.mail.alarms import Alarm, alarms, summary
from eol.plant.folder import PlantFolder
from eol.plant.sections import AlarmSettings
from eol.store.connect import open_copy

pytestmark = pytest.mark.mail

MORNING = at("05:00")
THREE_IN_FIVE = AlarmSettings(on=True, count=3, within_units=5)


def found(
    folder: PlantFolder, settings: AlarmSettings = THREE_IN_FIVE, since: datetime = MORNING
) -> list[Alarm]:
    """The alarms of a plant since that morning."""
    with open_copy(folder) as copy:
        return alarms(copy, settings, since=since)


def leaks(*places: int, clock_of: int = 0) -> list[b.Row]:
    """Eight first runs in a row, with a leak on those at the given places."""
    rows: list[b.Row] = []
    for number in range(8):
        clock = f"09:{number * 5 + clock_of:02d}"
        ends = ("fail", "LEAK/RRQ") if number in places else ("pass",)
        rows += b.run(f"V{number}", clock, *ends, bay="B")
    return rows


@pytest.fixture
def line(plant: PlantFolder) -> PlantFolder:
    """The plant with a leak on three of five units in a row, in one bay."""
    plants.load(plant, b.file("water", leaks(1, 3, 5), name="water_b"), now=at("14:40"))
    return plant


def test_one_code_again_and_again(line: PlantFolder) -> None:
    """Three findings of one code and zone within five units: how many, where to start, which units."""
    [alarm] = found(line)
    assert alarm.kind == "repeat"
    assert alarm.head == "3 findings of LEAK Leak at RRQ, 3 or more within 5 units"
    assert alarm.start == "Water: 3 of 3 at W1 B, 09:05 to 09:25. Start there."
    assert [unit.vin[-2:] for unit in alarm.units] == ["V1", "V3", "V5"]
    assert {unit.handling for unit in alarm.units} == {"Dry it."}
    assert json.loads(alarm.key)["shift"] == "E"


@pytest.mark.parametrize(("count", "within"), [(3, 4), (5, 9)])
def test_too_few_or_too_far_apart(line: PlantFolder, count: int, within: int) -> None:
    """Three within five are neither three within four nor five within nine."""
    assert found(line, AlarmSettings(on=True, count=count, within_units=within)) == []


def test_escape_and_safety(plant: PlantFolder) -> None:
    """A unit signed off without its test, and a safety-related finding, by VIN with handling words."""
    code = b.code("ISO", test="electrical", safety_related=True, handling="High voltage.")
    rows = b.run("U7", "09:00", "fail", "ISO/BATT", test="electrical", bay="2")
    signed = [b.event("U7", "signed_off", "09:30", place="yard")]
    after = [row for test in ("water", "electrical") for row in b.run("U8", "10:00", test=test)]
    plants.load(
        plant,
        b.file("defect_codes", [code], name="defect_codes_2"),
        b.file(
            "electrical", rows + [r for r in after if "pressure_kpa" not in r], name="electrical_2"
        ),
        b.file("water", [r for r in after if "pressure_kpa" in r], name="water_2"),
        b.file("events", signed, name="events_2"),
        now=at("14:40"),
    )
    water, electrical, safety = sorted(found(plant), key=lambda one: (one.kind, -len(one.head)))[:3]
    assert {water.kind, electrical.kind, safety.kind} == {"escape", "safety"}
    assert "no record" in water.head + electrical.head
    assert water.start.startswith("Last known place: yard. Find it and hold it")
    assert safety.head.startswith("Safety-related finding: ISO")
    assert "electrical 2" in safety.start.lower().replace("e1", "electrical")
    assert [unit.handling for unit in safety.units] == ["High voltage."]


def test_history_is_not_alarming(line: PlantFolder) -> None:
    """What happened before the moment asked about is no alarm."""
    assert found(line, since=at("12:30")) == []


def test_summary() -> None:
    """Some alarms in a few words."""
    kinds = ("safety", "repeat", "repeat", "escape", "escape")
    told = [Alarm(kind, "", "", "", ()) for kind in kinds]
    assert summary(told) == "2 escapes, 1 safety-related finding and 2 codes again and again"
