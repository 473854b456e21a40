"""Rows tried again: refused ones when the mapping is mended, waiting ones when their key comes."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import builders as b
import plants
import pytest
from second_opinion import File
from store_tables import moved_by_stamping_all

from eol.load.again import load_again
from eol.plant.folder import PlantFolder

SKIDS = b.settings(
    feed={name: {"named_by": "skid"} for name in ("water", "water_readings", "repairs")}
)
UNITS = b.file("units", [b.unit("U1"), b.unit("U2")])
TABLES = (
    "run",
    "finding",
    "reading",
    "repair",
    "unit",
    "unit_status",
    "rejected_row",
    "ftt_by_shift",
)


def keyed(rows: list[dict[str, Any]], skid: str) -> list[dict[str, Any]]:
    """Rows whose unit is named by a skid alone."""
    return [{"skid": skid} | {k: v for k, v in row.items() if k != "vin"} for row in rows]


def skid(value: str, vin: str, since: str, until: str | None = None) -> dict[str, Any]:
    """A unit key: a skid that carries a unit for a while."""
    key = {"kind": "skid", "value": value, "vin": vin, "valid_from": b.at(since)}
    return key | {"valid_to": b.at(until) if until else None}


KEYS = b.file("unit_keys", [skid("12", "U1", "05:00", "10:00"), skid("12", "U2", "10:00")])
RUNS = b.file(
    "water",
    keyed(b.run("", "08:00", "fail", "LEAK/RRQ", "HISS/LRQ"), "12")
    + keyed(b.run("", "09:00"), "12")
    + keyed(b.run("", "11:00"), "12"),
)
REPAIRS = b.file("repairs", keyed([b.repair("")], "12"))
READINGS = b.file(
    "water_readings",
    [
        {
            "skid": "12",
            "station": "W1",
            "started_at": b.at("10:56"),
            "name": "volts",
            "value": value,
        }
        for value in (12.1, 12.2)
    ],
)


def held(folder: PlantFolder) -> dict[str, list[str]]:
    """The rows of all tables that a key has a part in."""
    return {name: sorted(map(str, plants.rows(folder, name))) for name in TABLES}


@pytest.fixture
def skids(folder: PlantFolder) -> PlantFolder:
    """A plant whose water test, its readings and repairs name units by skid."""
    plants.declare(folder, SKIDS)
    return folder


GIVEN = b.file("unit_keys", [skid("12", "U1", "05:00")], name="unit_keys_1")
GIVEN_ON = b.file("unit_keys", [skid("12", "U2", "08:30")], name="unit_keys_2")


def orders() -> list[list[list[File]]]:
    """Ways of loading the same files: at once, one by one, keys first, last and between."""
    whole = [UNITS, KEYS, RUNS, REPAIRS, READINGS]
    return [
        [[file] for file in reversed(whole)],
        [list(reversed(whole))],
        [[RUNS, READINGS], [UNITS, KEYS], [REPAIRS]],
    ]


@pytest.mark.slow
def test_any_order_gives_the_same_tables(folder: PlantFolder, tmp_path: Any) -> None:
    """Whether keys come before the rows they name or after moves no table (rules 1 and 17)."""
    found = []
    for number, batches in enumerate(orders()):
        plant = plants.made(tmp_path / str(number), SKIDS)
        for batch in batches:
            plants.load(plant, *batch)
        found.append(held(plant))
    assert found[1:] == found[:1] * (len(found) - 1)
    assert found[0]["rejected_row"] == []
    assert len(found[0]["run"]) == 3


@pytest.mark.slow
def test_key_given_on_late(tmp_path: Any) -> None:
    """Rows stored under a unit that their skid had left already go to the one it carried (rules 1 and 17)."""
    found = []
    for number, batches in enumerate(late_orders()):
        plant = plants.made(tmp_path / str(number), SKIDS)
        for batch in batches:
            plants.load(plant, *batch)
        assert moved_by_stamping_all(plant) == []
        found.append(held(plant))
    assert found[1:] == found[:1] * (len(found) - 1)
    runs = sorted(plants.rows(plant, "run"), key=lambda run: run["started_at"])
    assert [run["vin"] for run in runs] == ["U1", "U2", "U2"]


def late_orders() -> list[list[list[File]]]:
    """The second key known first, come in one ingest with the rows, and come last."""
    rest = [RUNS, REPAIRS, READINGS]
    again = b.file("water", RUNS.rows[:-1], made_at=b.MADE_AT + timedelta(hours=1), name="water_2")
    return [
        [[UNITS, GIVEN, GIVEN_ON], rest, [again]],
        [[UNITS, GIVEN], [*rest, GIVEN_ON, again]],
        [[UNITS, GIVEN, *rest], [again], [GIVEN_ON]],
    ]


def test_waiting_rows_are_no_fault(skids: PlantFolder) -> None:
    """They are counted apart, and need nobody's look."""
    result = plants.load(skids, RUNS)
    [file] = result.files
    assert (file.rows, file.accepted, file.rejected, file.waiting) == (4, 0, 0, 4)
    assert (file.reasons, result.needs_a_look) == ((), False)
    assert plants.column(skids, "rejected_row", "waits_for") == ["skid=12"] * 4


def test_key_brings_its_rows_in(skids: PlantFolder) -> None:
    """The ingest that loads the key writes the rows that waited, and says so."""
    plants.load(skids, UNITS, RUNS)
    keys, again = plants.load(skids, KEYS).files
    assert (keys.feed, keys.state) == ("unit_keys", "loaded")
    assert (again.feed, again.state, again.rows, again.accepted) == ("water", "retried", 4, 4)
    assert plants.column(skids, "run", "vin") == ["U1", "U1", "U2"]
    [row] = plants.rows(skids, "source_file", feed="water")
    assert (row["rows"], row["accepted"], row["rejected"]) == (4, 4, 0)


@pytest.mark.slow
def test_row_before_its_key_goes_on_waiting(skids: PlantFolder) -> None:
    """A key that names no unit at the row's time leaves it where it is, untold."""
    late = b.file("unit_keys", [skid("12", "U2", "10:00")])
    plants.load(skids, RUNS)
    _, again = plants.load(skids, late).files
    assert (again.accepted, again.waiting) == (1, 3)
    assert [file.state for file in plants.load(skids, UNITS).files] == ["loaded"]
    assert plants.column(skids, "rejected_row", "file_row") == [1, 2, 3]


def test_refused_rows_are_accepted_once_the_mapping_is_mended(folder: PlantFolder) -> None:
    """A mended mapping brings in what it refused; what is refused still keeps its place."""
    rows = [b.run(vin)[0] | {"result": word} for vin, word in (("U1", "good"), ("U2", "perhaps"))]
    plants.load(folder, b.file("water", rows))
    mended = {"water": {"values": {"result": {"good": "pass"}}}}
    plants.declare(folder, b.settings(feed=mended))
    [file] = load_again(folder).files
    assert (file.state, file.rows, file.accepted, file.rejected) == ("retried", 2, 1, 1)
    assert plants.column(folder, "run", "vin") == ["U1"]
    assert plants.column(folder, "rejected_row", "file_row") == [2]


@pytest.mark.parametrize(
    "words", [["pass", "bad"], pytest.param(["bad", "pass"], marks=pytest.mark.slow)]
)
def test_row_of_a_known_run(folder: PlantFolder, tmp_path: Any, words: list[str]) -> None:
    """A row that comes in late counts with the others of its run: the worst result (rule 5)."""
    rows = [b.run("U1")[0] | {"result": word} for word in words]
    rows[words.index("bad")]["code"] = "LEAK"
    mended = b.settings(feed={"water": {"values": {"result": {"bad": "fail"}}}})
    at_once = plants.made(tmp_path / "at once", mended)
    plants.load(at_once, b.file("water", rows))
    plants.load(folder, b.file("water", rows))
    plants.declare(folder, mended)
    load_again(folder)
    assert held(folder) == held(at_once)
    assert plants.column(folder, "run", "result") == ["fail"]


def test_row_that_makes_doubles_of_other_units(folder: PlantFolder) -> None:
    """A third pair of two files comes late: runs of units that did not move are doubles now (rule 2)."""
    vins = ("U1", "U2", "U3")
    first = [b.run(vin, "08:00")[0] for vin in vins]
    moved = [b.run(vin, "09:00")[0] for vin in vins]
    moved[2] |= {"result": "good"}
    later = b.file("water", moved, made_at=b.MADE_AT + timedelta(hours=1), name="water_2")
    plants.load(folder, b.file("water", first), later)
    assert set(plants.column(folder, "run", "void_reason")) == {None}
    plants.declare(folder, b.settings(feed={"water": {"values": {"result": {"good": "pass"}}}}))
    load_again(folder)
    assert plants.column(folder, "run", "void_reason").count("suspect_double") == 3
    assert [row["status"] for row in plants.rows(folder, "unit_status", test="water")] == [
        "passed"
    ] * 3
    assert moved_by_stamping_all(folder) == []


def test_nothing_to_try(folder: PlantFolder) -> None:
    """Without refused rows nothing is told and nothing needs a look."""
    result = load_again(folder)
    assert (result.files, result.units, result.needs_a_look) == ((), 0, False)
