"""Rows whose key names another unit by now leave the tables as if they had never come (rule 17)."""

from __future__ import annotations

from datetime import timedelta

import builders as b
import plants
import pytest
from second_opinion import File

from eol.plant.folder import PlantFolder
from eol.store.connect import open_store, write_lock
from eol.store.take_back import take_back

SKIDS = b.settings(feed={"water": {"named_by": "skid"}})
GIVEN = {"kind": "skid", "value": "12", "vin": "U1", "valid_from": b.at("05:00")}
NEWER = b.MADE_AT + timedelta(hours=1)


def by_skid(*findings: str, **more: object) -> File:
    """A run of the unit on skid 12, in a newer file than the usual."""
    rows = b.run("", "08:00", "fail" if findings else "pass", *findings)
    named = [{k: v for k, v in row.items() if k != "vin"} | {"skid": "12"} | more for row in rows]
    return b.file("water", named, made_at=NEWER)


@pytest.fixture
def skids(folder: PlantFolder) -> PlantFolder:
    """A plant whose water test names units by skid."""
    plants.declare(folder, SKIDS)
    plants.load(folder, b.file("unit_keys", [GIVEN]))
    return folder


def taken_back(folder: PlantFolder, vin: str) -> int:
    """Give the skid to another unit, and take back what it named."""
    with write_lock(folder), open_store(folder) as store, store.transaction():
        store.execute("UPDATE unit_key SET vin = $vin", {"vin": plants.vin(vin)})
        store.execute("INSERT INTO touched_key VALUES ('skid=12')", {})
        return take_back(store)


def stored(folder: PlantFolder, table: str) -> list[dict[str, object]]:
    """The rows of a table of the store."""
    with write_lock(folder), open_store(folder) as store:
        return store.query(f"FROM {table}", {}).to_dicts()


def test_rows_wait_again(skids: PlantFolder) -> None:
    """A run, its findings and what was stamped for it go; its rows wait as they stood in the file."""
    plants.load(skids, by_skid("LEAK/RRQ", "HISS/LRQ"))
    assert taken_back(skids, "U2") == 2
    for table in ("run", "finding", "keyed_row", "touched_key"):
        assert stored(skids, table) == []
    assert [row["waits_for"] for row in stored(skids, "rejected_row")] == ["skid=12"] * 2
    [file] = [row for row in stored(skids, "source_file") if row["feed"] == "water"]
    assert (file["accepted"], file["rejected"]) == (0, 2)


@pytest.mark.slow
def test_other_version_stands(skids: PlantFolder) -> None:
    """Where an older file told the run too, that version is the run's again, with its findings (rule 1)."""
    older = [row | {"run_ref": "R1"} for row in b.run("U3", "08:00", "fail", "LEAK/RRQ")]
    plants.load(skids, b.file("water", older))
    plants.load(skids, by_skid("HISS/LRQ", run_ref="R1"))
    assert taken_back(skids, "U2") == 1
    assert [row["vin"] for row in stored(skids, "run")] == [plants.vin("U3")]
    assert [row["code"] for row in stored(skids, "finding")] == ["LEAK"]
    assert stored(skids, "superseded.run") == []


def test_same_unit_stays(skids: PlantFolder) -> None:
    """A key that was asked again and names the same unit takes nothing back."""
    plants.load(skids, by_skid())
    assert taken_back(skids, "U1") == 0
    assert len(stored(skids, "run")) == 1
