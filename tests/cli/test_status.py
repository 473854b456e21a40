"""`eol status`: the first line, tables, marks, exit code."""

from __future__ import annotations

from datetime import datetime

import builders as b
import plants
import pytest
from called import Eol
from shift_rows import built, heard_after, runs, vins

from eol.plant.folder import PlantFolder


@pytest.fixture(autouse=True)
def wall_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    """The wall clock stands at ten past three of that Tuesday."""

    def stopped() -> datetime:
        return b.at("15:10")

    monkeypatch.setattr("eol.cli.status.wall_clock", stopped)


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """Ten units of the early shift, all tested in full; to read."""
    folder = plants.made(tmp_path_factory.mktemp("sound") / "plant")
    files = [
        b.file(test, runs(vins(10), clock, test=test))
        for test, clock in (("electrical", "07:00"), ("water", "07:10"))
    ]
    after = heard_after(b.TUESDAY, "electrical", "water")
    plants.load(folder, b.file("units", built(vins(10))), *files, *after)
    return folder


def test_first_line_and_tables(eol: Eol, sound: PlantFolder) -> None:
    """The first line says whether the figures can be believed; units by test and feeds are tables."""
    answer = eol("--plant", sound.root, "status")
    lines = answer.out.splitlines()
    told = "The figures of 2026-09-08/E can be believed: 10 of 10 units tested in full."
    assert (answer.code, answer.err, lines[0]) == (0, "", told)
    assert lines[1] == "- not settled: it waits for data from after 2026-09-09 14:00"
    assert ["water", "10", "10", "10", "0", "0", "0", "0", "0"] in [line.split() for line in lines]
    plant = "Quillbrook: data received up to 2026-09-08 12:55 UTC; 11 units, 22 runs"
    assert plant in lines


def test_json(eol: Eol, sound: PlantFolder) -> None:
    """As JSON: the counts by name, the belief with its facts."""
    told = eol("--plant", sound.root, "status", "--json").json
    assert (told["plant"], told["counts"]["runs"], told["needs_a_look"]) == (
        "Quillbrook",
        22,
        False,
    )
    assert told["belief"]["believed"] is True
    assert told["belief"]["facts"]["accounts"][1]["expected"] == 10
    assert told["belief"]["facts"]["asked"]["starts_at"] == "2026-09-08T06:00:00+02:00"


def test_machine_side(eol: Eol, sound: PlantFolder) -> None:
    """Monitoring reads disk, copy, backup and versions from the same answer."""
    health = eol("--plant", sound.root, "status", "--json").json["health"]
    assert health["sizes"]["store"] > 0
    assert health["schema_version"] == health["tool_schema_version"]
    assert {"disk_free", "lock_held_by", "last_backup_at", "mails_unsent"} <= set(health)


def test_named_shift_with_something_to_look_at(eol: Eol, sound: PlantFolder) -> None:
    """A shift in doubt: exit 1, and the doubt in the first line."""
    answer = eol("--plant", sound.root, "status", "--shift", "2026-09-08/L")
    assert answer.code == 1
    assert answer.out.startswith("The figures of 2026-09-08/L cannot be believed yet: it ends")


def test_exit_code_says_look(eol: Eol, folder: PlantFolder) -> None:
    """A unit shipped without proof of its two tests since the shift began: exit 1 and the words."""
    sent = b.file("events", [b.event("U1", "ship", "12:00")])
    plants.load(folder, b.file("units", [b.unit("U1")]), sent)
    answer = eol("--plant", folder.root, "status")
    assert answer.code == 1
    assert "? 2 escapes (past a proof event without proof of a required test)" in answer.out


def test_no_such_shift(eol: Eol, sound: PlantFolder) -> None:
    """A wrong shift: exit 2, naming those of the day."""
    answer = eol("--plant", sound.root, "status", "--shift", "2026-09-08/X")
    assert answer.code == 2
    assert "Shifts of that day: E, L, N." in answer.err


def test_before_the_first_load(eol: Eol, folder: PlantFolder) -> None:
    """Without a copy: exit 3 and what to run first."""
    folder.read_copy.unlink()
    answer = eol("--plant", folder.root, "status")
    assert answer.code == 3
    assert "Run eol ingest first." in answer.err
