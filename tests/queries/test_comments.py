"""Every table, view and column says in the database what it is."""

from __future__ import annotations

import duckdb
import pytest

from eol.sqlfiles import SqlFile, sql_files

FILES = (*sql_files("schema"), *sql_files("views"))


@pytest.fixture(scope="module")
def store() -> duckdb.DuckDBPyConnection:
    """An empty store in memory with all tables, views and comments."""
    connection = duckdb.connect(":memory:")
    for file in FILES:
        for statement in file.statements:
            connection.execute(statement)
    return connection


def test_tables_and_views_have_comments(store: duckdb.DuckDBPyConnection) -> None:
    """No table and no view stands without a comment."""
    bare = store.execute(
        "SELECT table_name FROM duckdb_tables() WHERE comment IS NULL AND schema_name = 'main' "
        "UNION ALL SELECT view_name FROM duckdb_views() "
        "WHERE comment IS NULL AND schema_name = 'main' AND NOT internal"
    ).fetchall()
    assert bare == []


def test_columns_have_comments(store: duckdb.DuckDBPyConnection) -> None:
    """No column of a table or view stands without a comment."""
    bare = store.execute(
        "SELECT table_name, column_name FROM duckdb_columns() "
        "WHERE comment IS NULL AND schema_name = 'main' AND NOT internal"
    ).fetchall()
    assert bare == []


@pytest.mark.parametrize("file", sql_files("views"), ids=lambda file: file.name)
def test_view_file_form(file: SqlFile) -> None:
    """A view's file makes the view it is named for, opens with its title and cites what it reads."""
    assert file.title.startswith(f"{file.name}: ")
    assert file.plain_statements[0].split("CREATE OR REPLACE VIEW ")[1].split()[0] == file.name
    assert "-- Reads: " in file.text
