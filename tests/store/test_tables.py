"""What names rows: every key, time and file that the table of feeds speaks of is there."""

from __future__ import annotations

from collections.abc import Iterator

import duckdb
import pytest

from eol.sqlfiles import sql_files
from eol.store.database import Database
from eol.store.schema import prepare_schema
from eol.store.tables import FEED_TABLES, PARTS, STAMPS_OF_PARTS


@pytest.fixture(scope="module")
def store() -> Iterator[Database]:
    """A database in memory with the schema."""
    database = Database(duckdb.connect())
    prepare_schema(database)
    yield database
    database.close()


@pytest.mark.parametrize("name", FEED_TABLES)
def test_key_and_times_are_columns(store: Database, name: str) -> None:
    """Each table has the columns that name its rows, those that tell when, and its file."""
    table, columns = FEED_TABLES[name], set(store.view(name).columns)
    assert {*table.key, *table.times, "file_id", "file_row"} <= columns
    assert table.name == name


@pytest.mark.parametrize("name", FEED_TABLES)
def test_named_files_are_there(name: str) -> None:
    """What makes rows ready and what touches units are files of queries/load."""
    table, files = FEED_TABLES[name], {file.name for file in sql_files("load")}
    assert table.incoming in files
    assert table.touches in {*files, "vin", None}


@pytest.mark.parametrize("name", PARTS)
def test_parts_of_runs(store: Database, name: str) -> None:
    """Findings and readings have their key and their stamps, and a table in which they wait."""
    columns = set(store.view(name).columns)
    assert {"run_id", *PARTS[name], *STAMPS_OF_PARTS[name]} <= columns
    assert set(PARTS[name]) <= set(store.view(f"waiting_{name}").columns)


def test_every_loser_has_a_place(store: Database) -> None:
    """Each table that a feed fills has its twin for losing versions."""
    found = store.execute(
        "SELECT table_name FROM duckdb_tables() WHERE schema_name = 'superseded'", {}
    ).fetchall()
    assert {name for (name,) in found} == {*FEED_TABLES, *PARTS, "run"}
