"""Stores of earlier schema versions go forward, on a copy first; each version stands as SQL in `versions/`."""

from __future__ import annotations

import json
from pathlib import Path

import builders as b
import duckdb
import plants
import pytest

from eol.errors import StoreError
from eol.mail.record import writing
from eol.plant.folder import PlantFolder
from eol.sqlfiles import SqlFile, split_statements
from eol.store import schema, upgrade
from eol.store.connect import open_read_only, write_lock
from eol.store.schema import SCHEMA_VERSION, found_version

VERSIONS = sorted((Path(__file__).parent / "versions").glob("*.sql"))
COLUMNS = """
SELECT schema_name, table_name, column_name, data_type FROM duckdb_columns()
WHERE NOT internal ORDER BY ALL"""
STEP = SqlFile(
    "migrations",
    "note",
    "-- note: a column more\nALTER TABLE unit ADD COLUMN note VARCHAR;\n"
    "COMMENT ON COLUMN unit.note IS 'a note.';\n",
)


def old_store(folder: PlantFolder, version: Path) -> PlantFolder:
    """Put a store of an earlier version in the place of a plant's own."""
    folder.store.unlink()
    config = {"storage_compatibility_version": "v1.4.0"}
    with duckdb.connect(str(folder.store), config=config) as connection:
        for statement in split_statements(version.read_text(encoding="utf-8")):
            connection.execute(statement)
    return folder


def columns(folder: PlantFolder) -> list[tuple[object, ...]]:
    """Every column of a plant's store, tables and views."""
    with open_read_only(folder.store) as store:
        return store.execute(COLUMNS, {}).fetchall()


def test_each_earlier_version_is_kept() -> None:
    """There is a store of every version that was shipped."""
    assert [int(path.stem) for path in VERSIONS] == list(range(1, len(VERSIONS) + 1))
    assert len(VERSIONS) >= max(1, SCHEMA_VERSION - 1)


@pytest.mark.parametrize(
    "version",
    [
        *(pytest.param(path, id=path.stem, marks=pytest.mark.slow) for path in VERSIONS[:-1]),
        pytest.param(VERSIONS[-1], id=VERSIONS[-1].stem),
    ],
)
def test_old_store_comes_to_the_same_end(
    version: Path, folder: PlantFolder, blank_plant: PlantFolder
) -> None:
    """A load takes an old store to the tables and views of a new one, keeps its rows and goes on."""
    old_store(folder, version)
    plants.load(folder, b.file("water", b.run("U9", "09:00"), name="water_new"))
    assert columns(folder) == columns(blank_plant)
    assert plants.count(folder, "run") == 9
    assert plants.column(folder, "unit", "vin") == ["U1", "U2", "U3", "U9"]


@pytest.mark.slow
def test_vehicle_that_was_declared_becomes_a_reference_unit(folder: PlantFolder) -> None:
    """Version 4: one whose kind nothing else tells was stamped as production until then (rule 13)."""
    old_store(folder, VERSIONS[2])
    vin = plants.vin("U1")
    with duckdb.connect(str(folder.store)) as connection:
        connection.execute("UPDATE unit_sent SET kind = NULL WHERE vin = $1", [vin])
        connection.execute("INSERT INTO reference VALUES ($1, 'water', 'LEAK', NULL)", [vin])
    plants.declare(folder, b.settings(reference=[{"vin": vin, "test": "water", "code": "LEAK"}]))
    plants.load(folder, b.file("water", b.run("U8", "09:00"), name="water_new"))
    assert plants.column(folder, "unit", "kind", vin="U1") == ["reference"]
    assert set(plants.column(folder, "run", "kind", vin="U1")) == {"reference"}


@pytest.mark.slow
def test_keys_become_json(folder: PlantFolder) -> None:
    """Version 4: a code with a quote or a backslash stood in the key of its figure as it is."""
    old_store(folder, VERSIONS[2])
    codes = ['SEAL 5" \\ TOP', "LEAK"]
    with duckdb.connect(str(folder.store)) as connection:
        for code in codes:
            key = f'{{"production_date":"2026-09-08","shift":"E","test":"water","code":"{code}"}}'
            connection.execute("INSERT INTO figure_sent (message_id, key) VALUES ('m', $1)", [key])
    plants.load(folder, b.file("water", b.run("U8", "09:00"), name="water_new"))
    keys = [json.loads(row["key"]) for row in plants.rows(folder, "figure_sent", message_id="m")]
    assert [key["code"] for key in keys] == codes
    assert {key["shift"] for key in keys} == {"E"}


@pytest.fixture
def next_version(monkeypatch: pytest.MonkeyPatch) -> None:
    """A tool of one version more."""
    plain = schema.sql_files
    steps = (*plain("migrations"), STEP)
    monkeypatch.setattr(schema, "SCHEMA_VERSION", SCHEMA_VERSION + 1)
    monkeypatch.setattr(upgrade, "SCHEMA_VERSION", SCHEMA_VERSION + 1)
    monkeypatch.setattr(
        schema, "sql_files", lambda name: steps if name == "migrations" else plain(name)
    )


@pytest.mark.usefixtures("next_version")
def test_old_store_is_kept_beside(folder: PlantFolder) -> None:
    """The store as it was is kept under its version's name; the new one has taken its place whole."""
    before = folder.store.read_bytes()
    plants.load(folder, b.file("water", b.run("U1")))
    assert folder.store.with_name(f"plant.duckdb.v{SCHEMA_VERSION}").read_bytes() == before
    assert ("main", "unit", "note", "VARCHAR") in columns(folder)
    with open_read_only(folder.store) as store:
        assert found_version(store) == SCHEMA_VERSION + 1
    assert not list(folder.root.glob("*.upgrade*"))


@pytest.mark.usefixtures("next_version")
@pytest.mark.parametrize("step", ["ALTER TABLE nowhere ADD COLUMN n INTEGER", "DELETE FROM unit"])
def test_failed_upgrade_leaves_the_store(
    folder: PlantFolder, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    """A step that fails or loses rows changes nothing, and leaves nothing beside."""
    plants.load(folder, b.file("water", b.run("U1")))
    before = folder.store.read_bytes()
    plain = schema.sql_files
    wrong = SqlFile("migrations", "wrong", f"-- wrong: a step\n{step};\n")
    steps = (*plain("migrations"), wrong)
    monkeypatch.setattr(schema, "SCHEMA_VERSION", SCHEMA_VERSION + 2)
    monkeypatch.setattr(upgrade, "SCHEMA_VERSION", SCHEMA_VERSION + 2)
    monkeypatch.setattr(
        schema, "sql_files", lambda name: steps if name == "migrations" else plain(name)
    )
    with write_lock(folder), pytest.raises(StoreError):
        upgrade.upgrade(folder)
    assert folder.store.read_bytes() == before
    assert not list(folder.root.glob("*.upgrade*"))


def test_whoever_writes_takes_it_forward_on_a_copy(folder: PlantFolder) -> None:
    """Not a load alone: what is noted of a mail, or kept of an answer, finds the store of this version too."""
    before = old_store(folder, VERSIONS[0]).store.read_bytes()
    with writing(folder) as store:
        assert found_version(store) == SCHEMA_VERSION
    assert folder.store.with_name("plant.duckdb.v1").read_bytes() == before


def test_store_of_this_version_is_left_alone(folder: PlantFolder) -> None:
    """Nothing to do costs nothing and writes nothing."""
    before = folder.store.stat().st_mtime_ns
    with write_lock(folder):
        assert upgrade.upgrade(folder) is None
    assert folder.store.stat().st_mtime_ns == before
