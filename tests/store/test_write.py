"""Rows into tables: of two with one name the file ranked higher wins whole, the other is kept (rule 1).

Each story is told by units of its own. All are loaded into two plants, file by file: as they were
made, and the other way round.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import builders as b
import plants
import pytest
from second_opinion import File

from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy

HOUR = timedelta(hours=1)


def early(story: str, *runs: list[b.Row], feed: str = "water") -> File:
    """The file of a story that was made first."""
    return b.file(feed, [row for run in runs for row in run], name=f"{feed}_{story}_1")


def late(story: str, *runs: list[b.Row], feed: str = "water") -> File:
    """The one that was made an hour later."""
    rows = [row for run in runs for row in run]
    return b.file(feed, rows, name=f"{feed}_{story}_2", made_at=b.MADE_AT + HOUR)


def found_apart(vin: str) -> list[b.Row]:
    """A finding of the run at 08:00 that comes in a file of its own."""
    [run] = b.run(vin, "08:00")
    return [{name: run[name] for name in ("vin", "station", "started_at")} | {"code": "HISS"}]


FAILED = b.run("LATER", "08:00", "fail", "LEAK/RRQ")
STORIES = {
    "later": [early("later", FAILED), late("later", b.run("LATER", "08:00"))],
    "revised": [
        early("revised", b.run("REV1", "08:00", "fail", "LEAK", revision=1)),
        late("revised", b.run("REV1", "08:00")),
    ],
    "named": [
        early("named", b.run("NAMED", "08:00", run_ref="W-7")),
        late("named", b.run("NAMED", "08:09", run_ref="W-7")),
    ],
    "apart": [
        early("apart", b.run("APART", "08:00", "fail", "LEAK/RRQ")),
        early("apart", found_apart("APART"), feed="water_findings"),
        late("apart", b.run("APART", "08:00")),
    ],
    "tied": [
        early("tied", b.run("TWED", "08:00", "fail", "LEAK")),
        b.file("water", b.run("TWED", "08:00"), name="water_tied_again"),
    ],
    "units": [
        early("units", [b.unit("N5", build_seq=7)], feed="units"),
        late("units", [b.unit("N5", model=None, line="3")], feed="units"),
    ],
    "schedule": [
        early("schedule", b.run("SEEN", "08:00")),
        late("schedule", [b.unit("SEEN", kind="trial")], feed="units"),
    ],
    "closed": [
        early("closed", [b.repair("FXED", None, repair_id="R-1")], feed="repairs"),
        late("closed", [b.repair("FXED", "10:00", repair_id="R-1")], feed="repairs"),
    ],
    "again": [
        early("again", b.run("AGAN", "08:00", "fail", "LEAK")),
        late("again", b.run("AGAN", "08:00")),
        b.file("water", b.run("AGAN", "08:00"), name="water_again_0", made_at=b.MADE_AT - HOUR),
    ],
    "lower": [
        early("lower", [b.unit("LWER", model="WAG")], feed="units"),
        late("lower", [b.unit("LWER", model="SED")], feed="units"),
        b.file(
            "units",
            [b.unit("LWER", model="SED")],
            name="units_lower_0",
            made_at=b.MADE_AT - HOUR,
        ),
    ],
    "copied": [
        early("copied", b.run("CPY", "08:00", "fail", "LEAK")),
        late("copied", b.run("CPY", "08:00")),
        b.file(
            "water",
            b.run("CPY", "08:00", "fail", "LEAK"),
            name="water_c",
            made_at=b.MADE_AT + 9 * HOUR,
        ),
    ],
}
"""The files of each story, in the order in which they were made or came."""


@pytest.fixture(
    scope="module",
    params=[
        pytest.param(1, id="as made"),
        pytest.param(-1, id="the other way round", marks=pytest.mark.slow),
    ],
)
def told(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """A plant that took the n-th file of every story in its n-th ingest."""
    folder = plants.made(tmp_path_factory.mktemp("told") / "plant")
    stories = [plants.write(folder, *files)[:: request.param] for files in STORIES.values()]
    for turn in range(max(map(len, stories))):
        ingest(folder, [story[turn] for story in stories if len(story) > turn])
    return folder


def lost(folder: PlantFolder, table: str, vin: str) -> list[dict[str, Any]]:
    """The losing versions of a unit's rows."""
    with open_copy(folder) as copy:
        rows = copy.query(f"FROM superseded.{table}", {}).to_dicts()
    return [row for row in rows if row["vin"] == plants.vin(vin)]


def codes(folder: PlantFolder, vin: str) -> list[str]:
    """The codes found on a unit."""
    [run] = plants.rows(folder, "run", vin=vin)
    return plants.column(folder, "finding", "code", run_id=run["run_id"])


def result(folder: PlantFolder, vin: str) -> str:
    """The result of a unit's only run."""
    [run] = plants.rows(folder, "run", vin=vin)
    return str(run["result"])


def test_later_file_wins(told: PlantFolder) -> None:
    """The version of the file made later stands, with its findings and no others."""
    assert (result(told, "LATER"), codes(told, "LATER")) == ("pass", [])
    assert [row["result"] for row in lost(told, "run", "LATER")] == ["fail"]


def test_losing_version_is_kept_whole(told: PlantFolder) -> None:
    """What lost can be read as it was sent, with the file it came in."""
    [run] = plants.rows(told, "run", vin="LATER")
    [was] = plants.rows(told, "amended_run", run_id=run["run_id"])
    assert '"result":"fail"' in was["was"]
    assert was["file_id"] != run["file_id"]


def test_higher_revision_wins(told: PlantFolder) -> None:
    """A revision beats the time of the file; none is nought."""
    assert (result(told, "REV1"), codes(told, "REV1")) == ("fail", ["LEAK"])


def test_run_ref_names_the_run(told: PlantFolder) -> None:
    """Where the bench names its runs, a run whose start was mended is the same run."""
    [run] = plants.rows(told, "run", vin="NAMED")
    assert run["started_at"] == b.run("NAMED", "08:09")[0]["started_at"]
    assert len(lost(told, "run", "NAMED")) == 1


def test_findings_that_came_apart_stay(told: PlantFolder) -> None:
    """A finding of a file of its own belongs to the run, whichever version stands."""
    assert (result(told, "APART"), codes(told, "APART")) == ("pass", ["HISS"])


def test_same_time_is_decided_by_content(told: PlantFolder) -> None:
    """Of two files made at one time the one with the greater sha256 wins."""
    files = [f for f in plants.rows(told, "source_file") if "tied" in f["path"]]
    winner = max(files, key=lambda file: file["sha256"])
    assert plants.column(told, "run", "file_id", vin="TWED") == [winner["file_id"]]


def test_null_never_wins_over_a_value(told: PlantFolder) -> None:
    """Of a unit each column is the latest that was told; an empty cell tells nothing."""
    [unit] = plants.rows(told, "unit", vin="N5")
    assert (unit["model"], unit["line"], unit["build_seq"]) == ("WAG", "3", 7)


def test_units_feed_wins_over_a_test(told: PlantFolder) -> None:
    """A unit that a test told of is the schedule's where that names it."""
    [unit] = plants.rows(told, "unit", vin="SEEN")
    assert (unit["in_schedule"], unit["kind"]) == (True, "trial")
    [unit] = plants.rows(told, "unit", vin="LATER")
    assert (unit["in_schedule"], unit["kind"]) == (False, "production")


def test_open_repair_is_closed_by_a_later_file(told: PlantFolder) -> None:
    """The row of the later file wins whole, whichever comes first."""
    assert plants.column(told, "repair", "ended_at", vin="FXED") == [b.at("10:00")]
    assert len(lost(told, "repair", "FXED")) == 1


def test_known_content_takes_its_earliest_time(told: PlantFolder) -> None:
    """A content that comes again under an earlier time ranks by it, and its rows may lose then."""
    assert (result(told, "AGAN"), codes(told, "AGAN")) == ("fail", ["LEAK"])
    [lower] = [f for f in plants.rows(told, "source_file") if "water_again_0_" in f["path"]]
    assert lower["made_at"] == b.MADE_AT - HOUR


def test_units_of_a_content_of_an_earlier_time_are_stamped_anew(told: PlantFolder) -> None:
    """Rows of the units feed rank by their file though no two share a key: the other file stands then."""
    assert plants.column(told, "unit", "model", vin="LWER") == ["WAG"]


def test_later_name_of_a_known_content_does_not_count(told: PlantFolder) -> None:
    """A copy made later changes nothing, whichever came first."""
    assert (result(told, "CPY"), codes(told, "CPY")) == ("pass", [])


def rows_of_one_load() -> Iterator[File]:
    """Files without rivals, and rows whose names must be made."""
    ends = [f"08:1{n}:00" for n in range(5)] + ["08:10:00.483", "08:10:01"]
    runs = [b.run(f"U{n % 5 if n < 6 else 0}", b.at(end)) for n, end in enumerate(ends)]
    yield b.file("water", [row for run in runs for row in run])
    yield b.file("water", b.run("U0", "08:10", station="W2"), name="water_other")
    yield b.file("electrical", b.run("U0", "08:10", test="electrical"))
    yield b.file("repairs", [b.repair("U1", action=action) for action in ("wiped", "resealed")])
    for feed, row in NAMELESS.items():
        other = {"repairs": "action", "events": "note", "countermeasures": "text"}.get(
            feed, "reason"
        )
        yield b.file(feed, [row, row], name=f"{feed}_nameless")
        yield b.file(feed, [row, row | {other: "other"}], name=f"{feed}_nameless_too")


NAMELESS: dict[str, b.Row] = {
    "repairs": {k: v for k, v in b.repair("NAE").items() if k != "repair_id"},
    "events": {k: v for k, v in b.event("NAE", "ship").items() if k != "event_id"},
    "countermeasures": {"code": "LEAK", "text": "new seal", "owner": "body"},
    "corrections": {"vin": "NAE", "field": "kind", "value": "trial"},
}
"""A row of each feed whose ids may be left to the tool."""


@pytest.fixture(scope="module")
def once(tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """A plant that took those files."""
    folder = plants.made(tmp_path_factory.mktemp("once") / "plant")
    plants.load(folder, *rows_of_one_load())
    return folder


def test_run_is_known_to_the_second(once: PlantFolder) -> None:
    """Parts of a second do not make another run; a second, a station or a test does."""
    assert plants.count(once, "run", vin="U0") == 4


def test_run_ids_sort_by_time(once: PlantFolder) -> None:
    """A run's id is made of its second and its name, so that a shift lies together."""
    runs = plants.rows(once, "run")
    assert [run["run_id"] >> 30 for run in runs] == [int(r["started_at"].timestamp()) for r in runs]


def test_last_row_of_a_file_wins(once: PlantFolder) -> None:
    """Of rows of one file with one key the last stands."""
    assert plants.column(once, "repair", "action", vin="U1") == ["resealed"]


@pytest.mark.parametrize("feed", NAMELESS)
def test_ids_are_made_of_the_row(once: PlantFolder, feed: str) -> None:
    """The same row in two files is one; a row that differs is another."""
    table = feed.removesuffix("s")
    rows = [r for r in plants.rows(once, table) if r.get("vin", "NAE") == "NAE"]
    assert len(rows) == 2
