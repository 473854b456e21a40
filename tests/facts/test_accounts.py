"""Is every unit accounted for: expected by line-off or by like shifts, missing, held, unproven."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import builders as b
import plants
import pytest
from shift_rows import asking, built, runs, vins

from eol.facts.accounts import UnitAccount, account_remarks, unit_accounts
from eol.plant.folder import PlantFolder

TOMORROW = b.TUESDAY + timedelta(days=1)


@pytest.fixture(scope="module")
def mixed(tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """Ten units: one void, one untested, one held, one shipped void, one scrapped untested; to read."""
    folder = plants.made(tmp_path_factory.mktemp("mixed") / "plant")
    units = vins(10)
    water = runs(units[:7], "07:10") + runs(units[7:8], "08:00", pressure_kpa=180.0)
    events = [b.event("U001", "hold"), b.event("U008", "ship"), b.event("U010", "scrap")]
    plants.load(
        folder,
        b.file("units", built(units)),
        b.file("electrical", runs(units, "07:00", test="electrical")),
        b.file("water", water + b.run("U999", "15:00")),
        b.file("events", events),
    )
    return folder


def test_units_by_line_off(mixed: PlantFolder) -> None:
    """Of the units that left the line: counted, void only, untested (scrapped ones apart), escaped, held."""
    with asking(mixed) as question:
        water = {one.test: one for one in unit_accounts(question)}["water"]
    assert (water.expected, water.expected_by, water.presented) == (10, "line_off", 8)
    assert (water.tested, water.pending, water.void_runs) == (7, 1, 1)
    assert (water.counted, water.void_only, water.untested) == (7, 1, 1)
    assert (water.escaped, water.unproven, water.held) == (1, 0, 0)


def test_unproven_while_its_station_is_silent(folder: PlantFolder) -> None:
    """A shipped unit whose station has sent nothing since is unproven, no escape (rule 14)."""
    plants.load(
        folder,
        b.file("units", built(["U1", "U2"])),
        b.file("water", b.run("U2", "11:00")),
        b.file("electrical", runs(["U1", "U2"], "07:00", test="electrical")),
        b.file("events", [b.event("U1", "ship", "12:00")]),
    )
    with asking(folder) as question:
        accounts = unit_accounts(question)
    water = {one.test: one for one in accounts}["water"]
    assert (water.unproven, water.escaped, water.untested) == (1, 0, 1)
    looks = [one.text for one in account_remarks(accounts, running=False) if one.kind == "look"]
    told = "Water: 1 unit past a proof event while a station of the test is silent"
    assert looks == [told]


def test_usual_of_the_same_weekday_and_shift(folder: PlantFolder) -> None:
    """Without line-off the median of like shifts is expected; other weekdays and shifts do not count."""
    sizes = {1: 22, 2: 20, 3: 21}
    water = [
        row
        for weeks, n in sizes.items()
        for row in runs(vins(n, 100 * weeks), "07:00", day=b.TUESDAY - timedelta(weeks=weeks))
    ]
    water += runs(vins(3, 800), "07:00", day=TOMORROW) + runs(vins(3, 900), "15:00")
    plants.load(folder, b.file("water", water + runs(vins(12), "07:00")))
    with asking(folder) as question:
        (account,) = unit_accounts(question)
    assert (account.expected, account.expected_by) == (21, "usual")
    assert account.usual == (21, 20, 22)
    (doubt,) = account_remarks([account], running=False)
    assert (doubt.kind, doubt.text) == ("doubt", "Water: 12 units presented, 20 to 22 are usual")


def test_test_that_usually_runs_is_missed(folder: PlantFolder) -> None:
    """A test without any run in the shift is listed where like shifts had some."""
    weeks = [b.TUESDAY - timedelta(weeks=n) for n in (1, 2, 3)]
    before = [r for n, day in enumerate(weeks) for r in runs(vins(5, 100 * n), "07:00", day=day)]
    electrical = runs(vins(5), "07:00", test="electrical")
    plants.load(folder, b.file("water", before), b.file("electrical", electrical))
    with asking(folder) as question:
        accounts = {one.test: one for one in unit_accounts(question)}
    assert (accounts["water"].presented, accounts["water"].expected) == (0, 5)
    assert accounts["electrical"].expected_by is None


def account(**fields: Any) -> UnitAccount:
    """A test to which all of twenty units came."""
    names = ["void_runs", "pending", "void_only", "untested", "unproven", "escaped", "held"]
    base: dict[str, Any] = {"test": "water", "title": "Water", "required": True, "usual": ()}
    base |= {"expected": 20, "expected_by": "line_off", "presented": 20, "tested": 20}
    return UnitAccount(**base | {"counted": 20} | dict.fromkeys(names, 0) | fields)


def test_one_in_twenty_is_few_two_are_a_doubt() -> None:
    """The bound is rule 11's 5 %: at it the figures stand, beyond it they do not."""
    (few,) = account_remarks([account(untested=1)], running=False)
    (many,) = account_remarks([account(untested=1, void_only=1)], running=False)
    assert (few.kind, many.kind) == ("note", "doubt")
    assert many.text.endswith("have no run that counts (1 with void runs only and 1 untested)")


def test_few_came_is_not_told_of_a_running_shift() -> None:
    """More units may come while the shift runs; and two like shifts are too few to tell."""
    short = account(expected_by="usual", usual=(100, 100, 100))
    assert [one.kind for one in account_remarks([short], running=False)] == ["doubt"]
    assert list(account_remarks([short], running=True)) == []
    assert not account(usual=(100, 100)).few_came


def test_held_is_told() -> None:
    """Held units are told, they are a decision already taken."""
    (note,) = account_remarks([account(held=2)], running=False)
    assert (note.kind, note.text) == ("note", "Water: 2 units held")
