"""Files into the store: what became of each, one transaction a file, nothing lost, nothing twice."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import builders as b
import plants
import pytest

from eol.errors import PlantFileError
from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder

UNITS = b.file("units", [b.unit("U1"), b.unit("U2")])


def test_files_load(folder: PlantFolder) -> None:
    """Each file says its feed and how many of its rows came in; the copy holds them."""
    result = plants.load(folder, UNITS, b.file("water", b.run("U1") + b.run("U2")))
    told = [(file.feed, file.state, file.rows, file.accepted) for file in result.files]
    assert told == [("units", "loaded", 2, 2), ("water", "loaded", 2, 2)]
    assert (result.units, result.needs_a_look) == (2, False)
    assert plants.column(folder, "run", "result") == ["pass", "pass"]


def test_source_file_tells_each_file(folder: PlantFolder) -> None:
    """One row a file: path, feed, counts, when made and when loaded."""
    now = datetime(2026, 11, 1, tzinfo=UTC)
    plants.load(folder, UNITS, now=now)
    [row] = plants.rows(folder, "source_file")
    assert (row["feed"], row["rows"], row["accepted"], row["rejected"]) == ("units", 2, 2, 0)
    assert (row["made_at"], row["loaded_at"]) == (b.MADE_AT, now)
    assert Path(row["path"]).is_file()


def test_same_file_again_loads_nothing(folder: PlantFolder) -> None:
    """Known bytes are told as known, whatever their name is."""
    plants.load(folder, UNITS)
    again = plants.load(folder, b.file("units", UNITS.rows, name="units_other"))
    assert [(file.state, file.repeated) for file in again.files] == [("known", 2)]
    assert not again.needs_a_look
    assert plants.count(folder, "source_file") == 1


def test_repeated_and_amended_rows_are_counted(folder: PlantFolder) -> None:
    """Of rows in two files the same are repeated, others amended, the rest accepted."""
    first = b.run("U1", "08:00") + b.run("U2", "08:10")
    later = b.run("U1", "08:00") + b.run("U2", "08:10", "fail", "LEAK") + b.run("U3", "08:20")
    plants.load(folder, b.file("water", first))
    [file] = plants.load(
        folder, b.file("water", later, made_at=b.MADE_AT + timedelta(days=1))
    ).files
    assert (file.rows, file.accepted, file.repeated, file.amended) == (3, 1, 1, 1)
    assert plants.column(folder, "run", "result") == ["fail", "pass", "pass"]


def test_bad_rows_do_not_stop_the_file(folder: PlantFolder) -> None:
    """A refused row is kept with its reason, the others load, and the ingest needs a look."""
    rows = [*b.run("U1"), b.run("U2")[0] | {"result": "perhaps"}]
    result = plants.load(folder, b.file("water", rows))
    [file] = result.files
    assert (file.accepted, file.rejected, result.needs_a_look) == (1, 1, True)
    [row] = plants.rows(folder, "rejected_row")
    assert row["file_row"] == 2
    assert "perhaps" in row["reason"]
    assert file.reasons == ((row["reason"], 1),)
    assert "U2" in row["raw"]


def test_bad_file_changes_nothing(folder: PlantFolder) -> None:
    """A refused file says why in three parts and leaves no row; the files beside it load."""
    bad = folder.inbox / "water_1.csv"
    bad.write_text("vin,when\nU1,now\n", encoding="utf-8")
    result = ingest(folder, [bad, *plants.write(folder, UNITS)])
    assert [file.state for file in result.files] == ["refused", "loaded"]
    assert result.files[0].message.startswith("water_1.csv: ")
    assert "\n  " in result.files[0].message
    assert plants.column(folder, "source_file", "feed") == ["units"]


def test_named_file_that_is_missing(folder: PlantFolder) -> None:
    """A file that is not there is refused by name, not a fault of the program."""
    [file] = ingest(folder, [folder.inbox / "water_none.csv"]).files
    assert file.state == "refused"
    assert "water_none.csv" in file.message


def test_findings_wait_for_their_run(folder: PlantFolder) -> None:
    """A finding whose run has not come waits, is no fault, and joins when the run comes."""
    run = b.run("U1", "08:00", "fail")
    apart = {name: run[0][name] for name in ("vin", "station", "started_at")} | {"code": "LEAK"}
    assert not plants.load(folder, b.file("water_findings", [apart])).needs_a_look
    assert plants.count(folder, "waiting_finding") == 1
    plants.load(folder, b.file("water", run))
    assert plants.column(folder, "finding", "code") == ["LEAK"]
    assert plants.count(folder, "waiting_finding") == 0


def test_doubles_are_told(folder: PlantFolder) -> None:
    """A file sent again an hour later needs a look and moves no figure (rule 2)."""
    rows = [row for n in range(3) for row in b.run(f"U{n}", f"08:1{n}")]
    hour = timedelta(hours=1)
    again = [
        r | {"started_at": r["started_at"] + hour, "ended_at": r["ended_at"] + hour} for r in rows
    ]
    plants.load(folder, b.file("water", rows))
    result = plants.load(folder, b.file("water", again, made_at=b.MADE_AT + hour))
    assert (result.doubles, result.needs_a_look) == (3, True)
    assert plants.column(folder, "ftt_by_shift", "tested") == [3]


def test_times_to_come_are_refused(folder: PlantFolder) -> None:
    """A run that ends after the load's clock has not happened."""
    result = plants.load(folder, b.file("water", b.run("U1")), now=b.at("07:00").astimezone(UTC))
    assert result.files[0].rejected == 1


def test_progress_is_told_each_file(folder: PlantFolder) -> None:
    """Whoever watches is told each file with its number and how many there are."""
    told = []
    paths = plants.write(folder, UNITS, b.file("water", b.run("U1")))
    ingest(folder, paths, progress=lambda *args: told.append(args))
    assert told == [(paths[0], 1, 2), (paths[1], 2, 2)]


def test_plant_file_that_moves_the_past_stops_it(folder: PlantFolder) -> None:
    """A plant.toml that changes counted figures is refused before any file is read (rule 4)."""
    plants.load(folder, b.file("water", b.run("U1")))
    harder = b.declared_test(conditions=[b.pressure(lower=260.0)])
    plants.declare(folder, b.settings(test={"electrical": b.declared_test(), "water": harder}))
    with pytest.raises(PlantFileError, match="changes the past: condition_limit"):
        plants.load(folder, UNITS)
    assert plants.count(folder, "source_file") == 1


def test_rewritten_past_is_stamped_anew(folder: PlantFolder) -> None:
    """With a reason the past is rewritten, and every unit stamped again."""
    plants.load(folder, b.file("water", b.run("U1")))
    harder = b.declared_test(conditions=[b.pressure(lower=260.0)])
    plants.declare(folder, b.settings(test={"electrical": b.declared_test(), "water": harder}))
    ingest(folder, [], reason="the gauge was wrong")
    assert plants.column(folder, "run", "void_reason") == ["weak"]
    [row] = plants.rows(folder, "history_rewrite")
    assert (row["reason"], row["changed"]) == ("the gauge was wrong", "condition_limit")


def test_copy_follows_each_ingest(folder: PlantFolder) -> None:
    """An ingest without files still publishes what plant.toml declares."""
    plants.declare(folder, b.settings(plant=b.settings()["plant"] | {"name": "Quillbrook South"}))
    ingest(folder, [])
    assert plants.column(folder, "plant_setting", "name") == ["Quillbrook South"]


def test_clock_of_another_zone_tells_the_same_moment(folder: PlantFolder) -> None:
    """The wall clock may be given in any zone; the store keeps UTC."""
    now = datetime(2026, 9, 30, 12, tzinfo=ZoneInfo("Asia/Tokyo"))
    plants.load(folder, UNITS, b.file("water", b.run("U1")), now=now)
    assert set(plants.column(folder, "source_file", "loaded_at")) == {now}
