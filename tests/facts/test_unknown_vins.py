"""Units that only a test knows, and the scheduled VINs that may be meant (rule 17)."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

import builders as b
import duckdb
import plants
import pytest
from hypothesis import given
from hypothesis import strategies as st

from eol.facts.status import plant_status
from eol.facts.unknown_vins import UnknownVin, unknown_vins
from eol.plant.folder import PlantFolder
from eol.sqlfiles import sql_file
from eol.store.connect import open_copy
from eol.store.database import Database


def told(folder: PlantFolder) -> list[UnknownVin]:
    """The unknown VINs of a plant."""
    with open_copy(folder) as copy:
        return list(unknown_vins(copy, copy.view("as_of").item()))


def near(unknown: UnknownVin) -> list[tuple[str, int, bool]]:
    """What is offered for one of them."""
    return [(one.vin.lstrip("0"), one.distance, one.was_tested) for one in unknown.nearest]


def test_swapped_vin_is_offered_its_unit(folder: PlantFolder) -> None:
    """A run for a VIN one swap from a unit without a run: that unit is offered, and is no other's."""
    plants.load(folder, b.file("units", [b.unit("U1")]), b.file("water", b.run("1U", "08:00")))
    [unknown] = told(folder)
    assert (unknown.vin.lstrip("0"), unknown.test, unknown.station, unknown.runs) == (
        "1U",
        "water",
        "W1",
        1,
    )
    assert near(unknown) == [("U1", 1, False)]
    assert str(unknown).endswith(f"UTC; perhaps {plants.vin('U1')} (no run there yet)")


def test_status_tells_it(folder: PlantFolder) -> None:
    """The answer behind `eol status` names the unit that may be meant; it asks for nobody by itself."""
    plants.load(folder, b.file("units", [b.unit("U1")]), b.file("water", b.run("1U", "08:00")))
    with open_copy(folder) as copy:
        status = plant_status(copy, now=b.at("09:00"))
    assert [one.vin.lstrip("0") for one in status.unknown_vins] == ["1U"]
    assert status.findings[-1] == str(status.unknown_vins[0])


def test_correction_ends_it(folder: PlantFolder) -> None:
    """Once the run is corrected there is no unknown unit; the raw row stays as it was sent."""
    plants.load(folder, b.file("units", [b.unit("U1")]), b.file("water", b.run("1U", "08:00")))
    [run] = plants.rows(folder, "run")
    mended = {"run_id": run["run_id"], "field": "vin", "value": "U1", "made_at": b.at("09:00")}
    plants.load(folder, b.file("corrections", [mended]))
    assert told(folder) == []
    assert plants.column(folder, "run", "vin_sent") == ["1U"]
    assert plants.column(folder, "ftt_by_shift", "tested") == [1]


def test_units_without_a_run_go_first(folder: PlantFolder) -> None:
    """Of at most three the untested come first, then the nearer; one too far is not offered."""
    scheduled = ["ABCD1", "ABCD2", "ABCE7", "ABCD3", "XYZD9"]
    runs = b.run("ABCD9", "08:00") + b.run("ABCD1", "08:10") + b.run("ABCD2", "08:20")
    plants.load(folder, b.file("units", [b.unit(vin) for vin in scheduled]), b.file("water", runs))
    [unknown] = told(folder)
    assert near(unknown) == [("ABCD3", 1, False), ("ABCE7", 2, False), ("ABCD1", 1, True)]


def test_each_test_is_asked_for_itself(folder: PlantFolder) -> None:
    """A unit tested in one test may lack the other."""
    files = [b.file("water", b.run("1U", "08:00") + b.run("U1", "09:00"))]
    files.append(b.file("electrical", b.run("1U", "07:00", test="electrical")))
    plants.load(folder, b.file("units", [b.unit("U1")]), *files)
    assert {one.test: near(one) for one in told(folder)} == {
        "water": [("U1", 1, True)],
        "electrical": [("U1", 1, False)],
    }


def test_nothing_like_it(folder: PlantFolder) -> None:
    """An unknown VIN without a neighbour is told all the same."""
    plants.load(folder, b.file("units", [b.unit("XYZ")]), b.file("water", b.run("U1", "08:00")))
    [unknown] = told(folder)
    assert unknown.nearest == ()
    assert str(unknown).endswith("no scheduled VIN is like it")


def test_old_ones_are_left(folder: PlantFolder) -> None:
    """A run more than 30 days before the data clock is past mending."""
    later = b.at("08:00") + timedelta(days=31)
    runs = b.run("1U", "08:00") + b.run("2U", later)
    plants.load(folder, b.file("units", [b.unit("U1")]), b.file("water", runs))
    assert [one.vin.lstrip("0") for one in told(folder)] == ["2U"]


def test_empty_store(folder: PlantFolder) -> None:
    """Without data nothing is unknown."""
    assert told(folder) == []


SIGNS = st.text("AB1", min_size=7, max_size=7)


TABLES = (
    "CREATE TABLE unit (vin VARCHAR, in_schedule BOOLEAN, line_off_at TIMESTAMPTZ, earliest_at TIMESTAMPTZ)",
    'CREATE TABLE run (vin VARCHAR, test VARCHAR, station VARCHAR, "at" TIMESTAMPTZ, run_id BIGINT)',
)
"""As much of the two tables as the query reads."""


@pytest.fixture(scope="module")
def bare() -> Iterator[Database]:
    """A database that holds the two tables, empty."""
    database = Database(duckdb.connect())
    for text in TABLES:
        database.execute(text, {})
    yield database
    database.close()


@pytest.mark.slow
@given(unknown=SIGNS, scheduled=st.lists(SIGNS, min_size=1, max_size=30, unique=True))
def test_first_look_loses_none_that_two_edits_reach(
    bare: Database, unknown: str, scheduled: list[str]
) -> None:
    """The quick look at places leaves in every VIN whose whole edit distance is at most 2."""
    units = [vin for vin in scheduled if vin != unknown]
    bare.execute("DELETE FROM unit", {})
    bare.execute("DELETE FROM run", {})
    bare.connection.executemany(
        "INSERT INTO unit VALUES (?, ?, NULL, NULL)",
        [[unknown, False], *([v, True] for v in units)],
    )
    bare.execute(f"INSERT INTO run VALUES ('{unknown}', 'water', 'W1', '2026-09-08', 1)", {})
    statement = sql_file("status", "unknown_vin").statements[0].replace("r.rank <= 3", "true")
    since = b.at("00:00")
    found = bare.query(statement, {"since": since, "scheduled_since": since, "first_run_id": 0})
    offered = set(found["near_vin"].drop_nulls())
    assert offered == {vin for vin in units if edits(unknown, vin) <= 2}


def edits(one: str, other: str) -> int:
    """The edit distance with swaps (Damerau 1964), by the plain table of beginnings."""
    table = {(-1, -1): len(one) + len(other)}
    last: dict[str, int] = {}
    for i in range(len(one) + 1):
        table[i, -1], table[i, 0] = table[-1, -1], i
    for j in range(len(other) + 1):
        table[-1, j], table[0, j] = table[-1, -1], j
    for i, a in enumerate(one, start=1):
        met = 0
        for j, c in enumerate(other, start=1):
            k, m = last.get(c, 0), met
            same = a == c
            met = j if same else met
            table[i, j] = min(
                table[i - 1, j - 1] + (not same),
                table[i, j - 1] + 1,
                table[i - 1, j] + 1,
                table[k - 1, m - 1] + (i - k - 1) + 1 + (j - m - 1),
            )
        last[a] = i
    return table[len(one), len(other)]
