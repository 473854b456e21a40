"""Do the clocks agree: hand-overs, files made after the last run, units at two stations at once."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

import builders as b
import plants
import pytest
from shift_rows import asking, runs, vins

from eol.facts.clocks import (
    Clock,
    LateFile,
    TwoPlaces,
    clock_facts,
    clock_remarks,
    two_places,
    two_places_remarks,
)
from eol.plant.folder import PlantFolder

TESTS = ("brakes", "electrical", "water")
DAYS = [b.TUESDAY + timedelta(days=n) for n in range(-4, 1)]
SLOW = timedelta(minutes=11)


def three_tests(**sections: Any) -> dict[str, Any]:
    """A plant whose units go through brakes, electrical and water."""
    return b.settings(test={test: b.declared_test() for test in TESTS}, **sections)


def five_shifts(slow: timedelta) -> list[Any]:
    """Twelve units a day through three tests, a file a station; the last day E1's clock is slow."""
    files = []
    for number, day in enumerate(DAYS):
        units = vins(12, 1 + 100 * number)
        late = slow if day == b.TUESDAY else timedelta()
        for test, clock in zip(TESTS, ("07:00", "07:08", "07:18"), strict=True):
            rows = runs(units, clock, day=day, test=test)
            if test == "electrical":
                rows = [shifted(row, late) for row in rows]
            made = b.at("08:30", day)
            files.append(b.file(test, rows, made_at=made, name=f"{test}_{number}"))
    return files


def shifted(row: dict[str, Any], late: timedelta) -> dict[str, Any]:
    """A row as a slow clock wrote it."""
    return row | {name: row[name] - late for name in ("started_at", "ended_at")}


@pytest.fixture(scope="module")
def slow(tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """A plant whose station E1 was 11 min slow on the last of five days; to read."""
    folder = plants.made(tmp_path_factory.mktemp("slow") / "plant", three_tests())
    plants.load(folder, *five_shifts(SLOW))
    return folder


def test_slow_clock_is_named_by_hand_overs(slow: PlantFolder) -> None:
    """Hand-overs to it are 11 min shorter than usual and from it 11 min longer: only the clock does that."""
    with asking(slow) as question:
        clocks, late = clock_facts(question)
    assert [(clock.station, clock.slow_by) for clock in clocks] == [
        ("B1", None),
        ("E1", 660.0),
        ("W1", None),
    ]
    (doubt,) = clock_remarks(clocks, late)
    told = "the clock of E1 is about 11 min slow, by 24 hand-overs from and to other stations"
    assert (doubt.kind, doubt.text) == ("doubt", told)


def test_right_clock_is_not(slow: PlantFolder) -> None:
    """The day before hand-overs took as long as usual, the later slow day among the usual ones."""
    with asking(slow, day=DAYS[3]) as question:
        clocks, late = clock_facts(question)
    assert [clock.slow_by for clock in clocks] == [None, 0.0, None]
    assert list(clock_remarks(clocks, late)) == []


def test_units_of_a_slow_clock_are_at_two_stations_at_once(slow: PlantFolder) -> None:
    """A unit cannot be at two stations at once: one clock is wrong, or a VIN."""
    with asking(slow) as question:
        units, pairs = two_places(question)
    assert (units, pairs) == (12, (TwoPlaces("B1", "E1", 12, 60.0),))
    (look,) = two_places_remarks(units, pairs)
    told = (
        "12 units were at two stations at once in 7 days: B1 and E1 12; a clock is wrong, or a VIN"
    )
    assert (look.kind, look.n, look.text) == ("look", 12, told)


def test_declared_offset_mends_it(folder: PlantFolder) -> None:
    """With clock_offset the times that count are right; that it is in force is told."""
    offset = {"station": "E1", "valid_from": b.TUESDAY, "seconds": SLOW.total_seconds()}
    plants.declare(folder, three_tests(clock_offset=[offset]))
    plants.load(folder, *five_shifts(SLOW))
    with asking(folder) as question:
        clocks, late = clock_facts(question)
        assert two_places(question) == (0, ())
    (note,) = clock_remarks(clocks, late)
    told = "clock_offset adds 11 min to the times of E1; with it hand-overs take as long as usual"
    assert (note.kind, note.text) == ("note", told)


def test_late_file_is_named_with_its_runs(folder: PlantFolder) -> None:
    """Runs that come a day later than their station's files do: how many, of which bay, in which file."""
    files = [
        b.file(
            "water",
            runs(vins(3, n), "07:00", day=day),
            made_at=b.at("08:00", day),
            name=f"water_{n}",
        )
        for n, day in enumerate(DAYS)
    ]
    missed = runs(vins(3, 50), "09:00", bay="C")
    plants.load(folder, *files, b.file("water", missed, made_at=b.at("10:08") + timedelta(days=1)))
    with asking(folder) as question:
        clocks, late = clock_facts(question)
    (look,) = clock_remarks(clocks, late)
    assert (look.kind, look.n) == ("look", 3)
    assert look.text.startswith(
        "3 runs of W1 bay C, 09:00 to 09:08, came 25 h after the last of them"
    )
    assert (clocks[0].delay, clocks[0].files) == (3120.0, 1)


def clock(**fields: Any) -> Clock:
    """A clock of which hand-overs tell nothing, with a usual delay of ten minutes."""
    base = {"station": "E1", "test": "electrical", "files": 1, "delay": 600.0, "usual_delay": 600.0}
    return Clock(**base | {"n": 0, "slow_by": None, "added": 0.0} | fields)


@pytest.mark.parametrize(
    ("fields", "kind", "told"),
    [
        ({"delay": 1260.0}, "look", "is about 11 min slow, or its files come later than usual"),
        ({"delay": -120.0}, "doubt", "is at least 2 min fast: its files are older than"),
        ({"delay": 1260.0, "slow_by": 0.0}, "note", "come 11 min later than usual; by its hand"),
        ({"slow_by": -400.0, "n": 50}, "doubt", "is about 7 min fast, by 50 hand-overs"),
        ({"added": 660.0}, "note", "of E1; nothing else tells whether that is right"),
        ({"added": 660.0, "slow_by": 0.0}, "note", "hand-overs take as long as usual"),
    ],
)
def test_words(fields: dict[str, Any], kind: str, told: str) -> None:
    """A jump over ten minutes is the clock or the file; hand-overs decide where they can."""
    (remark,) = clock_remarks([clock(**fields)], [])
    assert remark.kind == kind
    assert told in remark.text


def test_small_jump_and_unknown_delay_are_silent() -> None:
    """Ten minutes are no jump, a minute's rounding of a file name no fast clock, one file no usual."""
    told = [clock(delay=1200.0), clock(delay=-60.0, usual_delay=0.0), clock(usual_delay=None)]
    assert list(clock_remarks(told, [])) == []


def test_stations_off_alike_share_a_sentence() -> None:
    """Two stations of one bench computer are told together."""
    alike = [clock(station=name, slow_by=660.0, n=10) for name in ("E1-1", "E1-2")]
    (doubt,) = clock_remarks(alike, [])
    assert doubt.text.startswith("the clocks of E1-1 and E1-2 are about 11 min slow, by 20 hand-")


def test_late_file_of_a_station_without_bays() -> None:
    """Without a bay the station alone is named."""
    noon = datetime(2026, 9, 8, 12)
    (look,) = clock_remarks([], [LateFile("x.csv", "T1", None, 1, noon, noon, 4 * 3600.0)])
    assert look.text == "1 run of T1, 12:00 to 12:00, came 4 h after the last of them, in x.csv"
