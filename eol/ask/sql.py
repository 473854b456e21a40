"""Analyst SQL on the published copy: read only, one answer as a frame."""

from __future__ import annotations

import duckdb
import polars as pl

from eol.errors import UsageError
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy

_HINT = (
    'eol sql "SELECT table_name, comment FROM duckdb_views() WHERE NOT internal" lists the views.'
)


def ask_copy(
    folder: PlantFolder, statement: str, values: dict[str, object] | None = None
) -> pl.DataFrame:
    """Run one statement on the published copy.

    Args:
        folder: the plant folder.
        statement: one SQL statement; it cannot write, and cannot reach other files.
        values: values bound to `$name`.

    Returns:
        The rows, times in UTC.

    Raises:
        UsageError: the statement is wrong; the message is DuckDB's.
        StoreError: nothing has been published yet.
    """
    if not statement.strip():
        raise UsageError("there is no statement", hint=_HINT)
    with open_copy(folder) as copy:
        copy.run("ask_guard", "locked")
        try:
            return copy.query(statement, values or {})
        except duckdb.InterruptException:
            raise
        except duckdb.Error as error:
            raise UsageError(f"the statement cannot be run: {error}", hint=_HINT) from error
