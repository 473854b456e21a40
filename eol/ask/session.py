"""A session on the published copy: what analyst SQL runs in. It is locked before the first statement.

It is a database in memory of its own, in which the copy stands as `plant`, read only; so its settings
touch no other reader of the same process, and each session sees the newest copy.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

import duckdb
import polars as pl
import polars.selectors as cs
import pyarrow as pa

from eol.ask.attach import attach
from eol.ask.guard import LISTS, checked
from eol.ask.limits import Limits, Stuck, Watch
from eol.errors import UsageError
from eol.plant.folder import PlantFolder
from eol.store.connect import open_apart, readable_copy
from eol.store.database import Database, bound, literal, quoted

COPY = "plant"
"""The name of the published copy in a session."""

_ROWS_AT_ONCE = 50_000
_SETTINGS: dict[str, str | bool | int | float | list[str]] = {
    "temp_directory": "",
    "allow_persistent_secrets": "false",
    "autoinstall_known_extensions": "false",
    "autoload_known_extensions": "false",
    "python_enable_replacements": "false",
}


class Session:
    """A locked session; statements can only read the copy and what was attached."""

    def __init__(self, database: Database, limits: Limits, stuck: Stuck | None) -> None:
        self._database = database
        self._limits = limits
        self._stuck = stuck

    def ask(self, statement: str, values: Mapping[str, object] | None = None) -> pl.DataFrame:
        """Run one statement and return its rows, times in UTC; as `arrow`.

        Raises:
            UsageError: as `arrow`.
        """
        frame = pl.from_arrow(self.arrow(statement, values))
        assert isinstance(frame, pl.DataFrame)
        sums = [n for n, t in frame.schema.items() if t == pl.Decimal(38, 0)]
        # Sums of whole numbers come as wide decimals; a person expects whole numbers.
        return frame.with_columns(cs.by_name(sums).cast(pl.Int64, strict=True))

    def arrow(self, statement: str, values: Mapping[str, object] | None = None) -> pa.Table:
        """Run one statement and return its rows as an Arrow table.

        Args:
            statement: one SQL statement that reads.
            values: values bound to `$name`; those it does not name are left out.

        Raises:
            UsageError: the statement is wrong, does more than read or goes past a limit.
        """
        body = checked(self._database, statement)
        with Watch(self._database.connection, self._limits, self._stuck) as watch:
            try:
                return self._fetched(body, bound(body, values or {}))
            except duckdb.Error as error:
                if isinstance(error, duckdb.InterruptException) and not watch.reason:
                    raise
                raise _told(error, watch.reason, self._limits) from error
            except (RuntimeError, OSError, MemoryError, pa.ArrowException) as error:
                # An interrupt while rows are handed over comes as an error of Arrow's or of Python's.
                if watch.reason or isinstance(error, MemoryError):
                    raise _told(error, watch.reason, self._limits) from error
                raise

    def columns(self) -> list[tuple[str, str, str, str]]:
        """Return database, schema, table and column of everything that can be asked for."""
        return self._database.query_rows("ask_session", "relations")

    def _fetched(self, body: str, values: dict[str, object]) -> pa.Table:
        relation = self._database.connection.sql(body, params=values)
        if relation is None:
            return pa.table({})
        reader = _portable(relation).to_arrow_reader(_ROWS_AT_ONCE)
        batches, size = [], 0
        for batch in reader:
            size += batch.nbytes
            if size > self._limits.bytes:
                raise duckdb.OutOfMemoryException("the answer is larger than that")
            batches.append(batch)
        return pa.Table.from_batches(batches, reader.schema)


@contextmanager
def open_session(
    folder: PlantFolder,
    *,
    attached: Mapping[str, Path] | None = None,
    limits: Limits | None = None,
    stuck: Stuck | None = None,
) -> Iterator[Session]:
    """Open a locked session on the published copy.

    Args:
        folder: the plant folder.
        attached: other data to read beside it, paths by name; see `eol.ask.attach.attach`.
        limits: what each statement may take.
        stuck: called where a statement goes on although it was stopped.

    Raises:
        StoreError: nothing has been published yet, or the copy cannot be read.
        UsageError: something cannot be attached.
    """
    copy = readable_copy(folder)
    limits = limits or Limits()
    config = {**_SETTINGS, "memory_limit": f"{limits.bytes}B"}
    with open_apart(config) as database:
        places = {"path": literal(str(copy)), "name": quoted(COPY)}
        database.template("ask_session", "attach", places)
        files = attach(database, attached or {})
        database.run("ask_session", "locked", files=files)
        yield Session(database, limits, stuck)


def _portable(relation: duckdb.DuckDBPyRelation) -> duckdb.DuckDBPyRelation:
    """Give spans of time as text: frames and files have no type for months and days."""
    kinds = [str(kind) for kind in relation.types]
    if "INTERVAL" not in kinds or len(set(relation.columns)) < len(kinds):
        return relation
    columns = [
        duckdb.ColumnExpression(name).cast("VARCHAR").alias(name)
        if kind == "INTERVAL"
        else duckdb.ColumnExpression(name)
        for name, kind in zip(relation.columns, kinds, strict=True)
    ]
    return relation.select(*columns)


def _told(error: Exception, reason: str, limits: Limits) -> UsageError:
    if reason:
        return UsageError(reason, hint="Ask for less, or give more: --seconds 900, --memory 8GB.")
    if isinstance(error, duckdb.OutOfMemoryException | MemoryError):
        return UsageError(
            f"the statement needs more than {limits.memory} of memory",
            hint="Ask for less, such as one shift or a count, or give more: --memory 8GB.",
        )
    if isinstance(error, duckdb.PermissionException):
        return UsageError(
            "a statement here reads the published copy alone, and no file",
            hint="Other files are attached with --attach NAME=PATH, read only.",
        )
    return UsageError(f"the statement cannot be run: {error}", hint=LISTS)
