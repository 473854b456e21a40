"""What a statement of an analyst may be: one SELECT or EXPLAIN that calls no function with a hold on files.

The session is locked down beside this; the guard refuses in words, and before anything runs.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import duckdb

from eol.errors import UsageError
from eol.store.database import Database

TABLE_FUNCTIONS = frozenset(
    {
        *("generate_series", "range", "repeat", "unnest", "json_each", "json_tree", "summary"),
        *("duckdb_columns", "duckdb_constraints", "duckdb_databases", "duckdb_functions"),
        *("duckdb_keywords", "duckdb_schemas", "duckdb_tables", "duckdb_types", "duckdb_views"),
        *("icu_calendar_names", "pg_timezone_names", "pragma_show", "pragma_table_info"),
        *("pragma_version", "query_table"),
    }
)
"""Functions that stand where a table does and may: they read nothing but the copy."""

LISTS = "eol sql --words lists tables, views and columns."

_EXPLAIN = re.compile(r"\s*EXPLAIN(\s+ANALYZE)?(\s*\([^()]*\))?\s", re.IGNORECASE)
_INSTEAD = {
    "COPY": "Write an answer to a file with --to FILE.",
    "EXPORT": "Write the tables to files with eol publish --to DIR.",
    "ATTACH": "Attach another database or a folder with --attach NAME=PATH.",
    "PRAGMA": "DESCRIBE name and SHOW TABLES tell what there is.",
    "CALL": "DESCRIBE name and SHOW TABLES tell what there is.",
    "SET": "Limits are given with --seconds and --memory, values with --set name=value.",
    "MULTI": "Name the columns of a PIVOT: PIVOT run ON test IN ('water') USING count(*).",
    "CREATE": "Views of your own are files in the folder mine/ of the plant: mine/NAME.sql.",
}


def checked(database: Database, text: str) -> str:
    """Return the one statement of a text, without the semicolon, where it only reads.

    Args:
        database: the session it is to run in.
        text: SQL as a person wrote it.

    Raises:
        UsageError: there is none or more than one, it is wrong, or it does more than read.
    """
    statements = _parsed(database, text)
    if not statements:
        raise UsageError("there is no statement", hint=LISTS)
    if len(statements) > 1:
        raise UsageError(
            f"there are {len(statements)} statements",
            hint="Give one; a prompt takes one after the other.",
        )
    (statement,) = statements
    body = str(statement.query).strip().rstrip(";").strip()
    kind = _kind(statement)
    if kind == "EXPLAIN" and _EXPLAIN.match(body):
        _read_only(database, _EXPLAIN.sub("", body, count=1))
    else:
        _read_only(database, body)
    return body


def _parsed(database: Database, text: str) -> list[Any]:
    try:
        return list(database.connection.extract_statements(text))
    except duckdb.Error as error:
        raise UsageError(f"the statement cannot be run: {error}", hint=LISTS) from error


def _kind(statement: Any) -> str:
    try:
        return str(statement.type).rsplit(".", 1)[-1]
    except ValueError:
        # Kinds that DuckDB knows and its Python client does not, such as UPDATE EXTENSIONS.
        return "OTHER"


def _read_only(database: Database, body: str) -> None:
    statements = _parsed(database, body)
    kind = _kind(statements[0]) if len(statements) == 1 else "MULTI"
    tree = _tree(database, body) if kind == "SELECT" else {}
    if tree.get("error", True):
        raise UsageError(
            f"a statement here can only read: {_first_word(body)} is refused",
            hint=_INSTEAD.get(kind, "Ask with SELECT, WITH, DESCRIBE, SUMMARIZE or EXPLAIN."),
        )
    refused = sorted(set(_table_functions(tree)) - TABLE_FUNCTIONS)
    if refused:
        raise UsageError(
            f"a statement here reads the published copy alone: {', '.join(refused)} is refused",
            hint="Other files are attached with --attach NAME=PATH, read only.",
        )


def _tree(database: Database, body: str) -> dict[str, Any]:
    (row,) = database.query_rows("ask_session", "table_functions", statement=body)
    tree: dict[str, Any] = json.loads(row[0])
    return tree


def _table_functions(node: Any) -> Iterator[str]:
    """Give the names of the functions that stand where a table does, anywhere in a parse tree."""
    if isinstance(node, dict):
        if node.get("type") == "TABLE_FUNCTION":
            yield str(node["function"].get("function_name", "?")).lower()
        for child in node.values():
            yield from _table_functions(child)
    elif isinstance(node, list):
        for child in node:
            yield from _table_functions(child)


def _first_word(body: str) -> str:
    found = re.search(r"[A-Za-z]+", re.sub(r"--[^\n]*|/\*.*?\*/", "", body, flags=re.DOTALL))
    return found[0].upper() if found else "this"
