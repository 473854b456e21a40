"""The schema: created once, taken forward, never back; every table and column says what it is."""

from __future__ import annotations

from collections.abc import Iterator

import duckdb
import pytest

from eol.errors import StoreError
from eol.sqlfiles import sql_files
from eol.store.database import Database
from eol.store.schema import SCHEMA_VERSION, found_version, install_views, prepare_schema


@pytest.fixture(scope="module")
def prepared() -> Iterator[Database]:
    """A database in memory with schema and views; to read."""
    database = Database(duckdb.connect())
    prepare_schema(database)
    yield database
    database.close()


@pytest.fixture
def empty() -> Iterator[Database]:
    """An empty database in memory."""
    database = Database(duckdb.connect())
    yield database
    database.close()


def asked(database: Database, statement: str) -> list[tuple[object, ...]]:
    """The rows of a statement."""
    return database.execute(statement, {}).fetchall()


def test_new_store_has_the_newest_schema(prepared: Database) -> None:
    """An empty store comes to this tool's version in one step, and the step is noted."""
    assert found_version(prepared) == SCHEMA_VERSION
    [row] = prepared.view("schema_version").to_dicts()
    assert row["version"] == SCHEMA_VERSION
    assert row["tool"]


def test_empty_store_has_version_nought(empty: Database) -> None:
    """Before the first step there is no version."""
    assert found_version(empty) == 0


def test_every_file_has_its_table(prepared: Database) -> None:
    """One table a file, named after it; the losing versions have tables of their own schema."""
    files = {file.name for file in sql_files("schema")} - {"superseded", "amended_run"}
    tables = asked(prepared, "SELECT table_name FROM duckdb_tables() WHERE schema_name = 'main'")
    assert {str(name) for (name,) in tables} == files


def test_every_table_and_column_is_commented(prepared: Database) -> None:
    """An analyst can read what each table of the store and each of its columns is."""
    tables = "SELECT table_name FROM duckdb_tables() WHERE schema_name = 'main' AND comment IS NULL"
    columns = (
        "SELECT table_name || '.' || column_name FROM duckdb_columns()"
        " WHERE schema_name = 'main' AND NOT internal AND comment IS NULL"
    )
    assert asked(prepared, tables) == []
    assert asked(prepared, columns) == []


def test_losers_have_the_shape_of_winners(prepared: Database) -> None:
    """Each table of `superseded` has the columns of the table that its rows lost in."""
    shapes = asked(
        prepared,
        "SELECT table_name, list((column_name, data_type) ORDER BY column_index)"
        " FROM duckdb_columns() WHERE schema_name = 'superseded' GROUP BY table_name",
    )
    assert len(shapes) == 14
    for table, columns in shapes:
        standing = asked(prepared, f"DESCRIBE main.{table}")
        assert [(row[0], row[1]) for row in standing] == columns


def test_store_has_no_keys_and_no_indexes(prepared: Database) -> None:
    """Keys would cost seven times the file; one writer and rule 1 keep rows single."""
    assert asked(prepared, "FROM duckdb_constraints() WHERE constraint_type <> 'NOT NULL'") == []
    assert asked(prepared, "FROM duckdb_indexes()") == []


def test_second_time_changes_nothing(empty: Database) -> None:
    """A store of this version is left as it is."""
    prepare_schema(empty)
    before = empty.view("schema_version")
    prepare_schema(empty)
    assert empty.view("schema_version").equals(before)


def test_newer_store_is_left_alone(empty: Database) -> None:
    """A store of a newer tool is refused with both versions, and untouched."""
    prepare_schema(empty)
    empty.execute("UPDATE schema_version SET version = 99", {})
    with pytest.raises(StoreError, match="schema version 99, this tool knows up to"):
        prepare_schema(empty)
    assert found_version(empty) == 99


def test_failed_step_leaves_nothing(empty: Database) -> None:
    """A step that fails half-way takes back what it did."""
    empty.execute("CREATE VIEW run AS SELECT 1 AS n", {})
    with pytest.raises(duckdb.CatalogException):
        prepare_schema(empty)
    assert not empty.has_relation("source_file")
    assert found_version(empty) == 0


def test_changed_views_are_made_anew(empty: Database) -> None:
    """Views of another tool version are replaced, their comments with them."""
    prepare_schema(empty)
    empty.execute("CREATE OR REPLACE VIEW as_of AS SELECT 1 AS n", {})
    install_views(empty)
    assert empty.view("as_of").columns == ["n"]
    empty.execute("UPDATE schema_version SET views = 'of another version'", {})
    install_views(empty)
    assert "as_of" in empty.view("as_of").columns
    assert asked(empty, "SELECT comment FROM duckdb_views() WHERE view_name = 'as_of'") != [(None,)]
