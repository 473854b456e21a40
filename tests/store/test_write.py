"""Rows into tables: of two with one name the file ranked higher wins whole, the other is kept (rule 1)."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import builders as b
import plants
import pytest
from store_tables import tables

from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder

HOUR = timedelta(hours=1)
EARLY = b.file("water", b.run("U1", "08:00", "fail", "LEAK/RRQ"), name="water_early")
LATE = b.file("water", b.run("U1", "08:00"), name="water_late", made_at=b.MADE_AT + HOUR)
ORDERS = pytest.mark.parametrize("order", [1, -1], ids=["as made", "the other way round"])


def lost(folder: PlantFolder, name: str) -> int:
    """How many rows of a table lost to another version."""
    return tables(folder)[f"superseded.{name}"].total()


@ORDERS
def test_later_file_wins(folder: PlantFolder, order: int) -> None:
    """The version of the file made later stands, with its findings and no others."""
    for file in [EARLY, LATE][::order]:
        plants.load(folder, file)
    assert plants.column(folder, "run", "result") == ["pass"]
    assert plants.count(folder, "finding") == 0
    assert (lost(folder, "run"), lost(folder, "finding")) == (1, 1)


@ORDERS
def test_higher_revision_wins(folder: PlantFolder, order: int) -> None:
    """A revision beats the time of the file; none is nought."""
    revised = b.file("water", b.run("U1", "08:00", "fail", "LEAK", revision=1), name="water_0")
    for file in [revised, LATE][::order]:
        plants.load(folder, file)
    assert plants.column(folder, "run", "result") == ["fail"]
    assert plants.column(folder, "amended_run", "revision") == [0]


@ORDERS
def test_run_ref_names_the_run(folder: PlantFolder, order: int) -> None:
    """Where the bench names its runs, a run whose start was mended is the same run."""
    first = b.file("water", b.run("U1", "08:00", run_ref="W-7"), name="water_1")
    moved = b.run("U1", "08:09", run_ref="W-7")
    for file in [first, b.file("water", moved, name="water_2", made_at=b.MADE_AT + HOUR)][::order]:
        plants.load(folder, file)
    [run] = plants.rows(folder, "run")
    assert run["started_at"] == moved[0]["started_at"]
    assert lost(folder, "run") == 1


def test_run_is_known_to_the_second(folder: PlantFolder) -> None:
    """Parts of a second do not make another run; a second does."""
    for ended in ("08:00:00", "08:00:00.483", "08:00:01"):
        plants.load(folder, b.file("water", b.run("U1", b.at(ended)), name=f"water_{ended[6:]}"))
    assert plants.count(folder, "run") == 2


def test_test_and_station_are_part_of_the_name(folder: PlantFolder) -> None:
    """Another unit, station or test at the same second is another run."""
    rows = b.run("U1", "08:00") + b.run("U2", "08:00") + b.run("U1", "08:00", station="W2")
    plants.load(folder, b.file("water", rows))
    plants.load(folder, b.file("electrical", b.run("U1", "08:00", test="electrical")))
    assert plants.count(folder, "run") == 4


@ORDERS
def test_findings_that_came_apart_stay(folder: PlantFolder, order: int) -> None:
    """A finding of a file of its own belongs to the run, whichever version stands."""
    named = {name: EARLY.rows[0][name] for name in ("vin", "station", "started_at")}
    apart = b.file("water_findings", [named | {"code": "HISS"}])
    for file in [EARLY, apart, LATE][::order]:
        plants.load(folder, file)
    assert plants.column(folder, "finding", "code") == ["HISS"]


@ORDERS
def test_same_time_is_decided_by_content(folder: PlantFolder, order: int) -> None:
    """Of two files made at one time the same one wins in any order."""
    other = b.file("water", LATE.rows, name="water_late")
    paths = plants.write(folder, EARLY, other)
    for path in paths[::order]:
        ingest(folder, [path])
    winner = max(plants.rows(folder, "source_file"), key=lambda row: row["sha256"])
    assert plants.column(folder, "run", "file_id") == [winner["file_id"]]


def test_known_content_takes_its_earliest_time(folder: PlantFolder) -> None:
    """A content that comes again under an earlier time ranks by it, and its rows may lose then."""
    for file in (EARLY, LATE):
        plants.load(folder, file)
    earlier = b.file("water", LATE.rows, name="water_again", made_at=b.MADE_AT - HOUR)
    assert plants.load(folder, earlier).files[0].state == "known"
    assert plants.column(folder, "run", "result") == ["fail"]
    assert plants.column(folder, "finding", "code") == ["LEAK"]
    assert plants.count(folder, "source_file") == 2


def test_later_name_of_a_known_content_does_not_count(folder: PlantFolder) -> None:
    """A copy made later changes nothing."""
    for file in (EARLY, LATE):
        plants.load(folder, file)
    plants.load(
        folder, b.file("water", EARLY.rows, name="water_again", made_at=b.MADE_AT + 9 * HOUR)
    )
    assert plants.column(folder, "run", "result") == ["pass"]


def test_null_never_wins_over_a_value(folder: PlantFolder) -> None:
    """Of a unit each column is the latest that was told; an empty cell tells nothing."""
    plants.load(folder, b.file("units", [b.unit("U1", build_seq=7)]))
    later = b.unit("U1", model=None, line="3")
    plants.load(folder, b.file("units", [later], made_at=b.MADE_AT + HOUR))
    [unit] = plants.rows(folder, "unit")
    assert (unit["model"], unit["line"], unit["build_seq"]) == ("WAG", "3", 7)


def test_units_feed_wins_over_a_test(folder: PlantFolder) -> None:
    """A unit that a test told of first is taken over by the schedule."""
    plants.load(folder, b.file("water", b.run("U1")))
    assert plants.column(folder, "unit", "in_schedule") == [False]
    plants.load(folder, b.file("units", [b.unit("U1", kind="trial")]))
    [unit] = plants.rows(folder, "unit")
    assert (unit["in_schedule"], unit["kind"]) == (True, "trial")


@pytest.mark.parametrize(
    ("feed", "table", "row"),
    [
        ("repairs", "repair", {k: v for k, v in b.repair("U1").items() if k != "repair_id"}),
        ("events", "event", {k: v for k, v in b.event("U1", "ship").items() if k != "event_id"}),
        (
            "countermeasures",
            "countermeasure",
            {"code": "LEAK", "text": "new seal", "owner": "body"},
        ),
        ("corrections", "correction", {"vin": "U1", "field": "kind", "value": "trial"}),
    ],
)
def test_ids_are_made_of_the_row(folder: PlantFolder, feed: str, table: str, row: Any) -> None:
    """The same row in two files is one; a row that differs is another."""
    again = b.file(feed, [row, row], name=f"{feed}_again")
    plants.load(folder, b.file(feed, [row]), again)
    assert plants.count(folder, table) == 1
    plants.load(folder, b.file(feed, [row | {"note": "x", "reason": "x", "owner_area": "paint"}]))
    assert plants.count(folder, table) == 2


def test_last_row_of_a_file_wins(folder: PlantFolder) -> None:
    """Of rows of one file with one key the last stands."""
    rows = [b.repair("U1", action=action) for action in ("wiped", "resealed")]
    plants.load(folder, b.file("repairs", rows))
    assert plants.column(folder, "repair", "action") == ["resealed"]


@ORDERS
def test_open_repair_is_closed_by_a_later_file(folder: PlantFolder, order: int) -> None:
    """The row of the later file wins whole, whichever comes first."""
    open_one = b.repair("U1", None, repair_id="R-1")
    done = b.repair("U1", "10:00", repair_id="R-1")
    files = [b.file("repairs", [open_one]), b.file("repairs", [done], made_at=b.MADE_AT + HOUR)]
    for file in files[::order]:
        plants.load(folder, file)
    assert plants.column(folder, "repair", "ended_at") == [b.at("10:00")]
    assert lost(folder, "repair") == 1


def test_losing_version_is_kept_whole(folder: PlantFolder) -> None:
    """What lost can be read as it was sent, with the file it came in."""
    for file in (EARLY, LATE):
        plants.load(folder, file)
    [row] = plants.rows(folder, "amended_run")
    assert '"result":"fail"' in row["was"]
    [winner] = plants.rows(folder, "run")
    assert row["run_id"] == winner["run_id"]
    assert row["file_id"] != winner["file_id"]


def test_run_ids_sort_by_time(folder: PlantFolder) -> None:
    """A run's id is made of its second and its name, so that a shift lies together."""
    plants.load(folder, b.file("water", [r for n in range(5) for r in b.run(f"U{n}", f"08:1{n}")]))
    runs = sorted(plants.rows(folder, "run"), key=lambda run: run["run_id"])
    assert [run["vin"] for run in runs] == ["U0", "U1", "U2", "U3", "U4"]
    assert all(run["run_id"] >> 30 == int(run["started_at"].timestamp()) for run in runs)
