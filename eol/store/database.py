"""One open DuckDB database: runs the named files of `queries/` and hands frames in and out.

Everything that talks SQL to DuckDB in this package goes through here; the SQL itself lies in `queries/`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from typing import Any

import duckdb
import polars as pl
import pyarrow as pa

from eol.errors import UsageError
from eol.sqlfiles import sql_file, sql_files

# A statement that gives no rows costs half where none are asked for: a store takes hundreds a load.
_CHANGES = re.compile(r"(?:\s|--.*\n)*(?:INSERT|UPDATE|DELETE|CREATE|DROP)\b", re.IGNORECASE)
# DuckDB compresses and writes so many rows at a time.
_ROW_GROUP = 122_880
_PARAMETER = re.compile(r"\$([a-z_][a-z0-9_]*)", re.IGNORECASE)


def quoted(name: str) -> str:
    """Quote an identifier for SQL; the one way in which a name gets into a statement."""
    return '"' + name.replace('"', '""') + '"'


def literal(text: str) -> str:
    """Quote a text for SQL, where a statement takes no value by name."""
    return "'" + text.replace("'", "''") + "'"


def quoted_list(names: tuple[str, ...] | list[str], prefix: str = "") -> str:
    """Quote several identifiers, comma separated, each behind a prefix such as `t.`."""
    return ", ".join(prefix + quoted(name) for name in names)


class Database:
    """A connection with the few ways in which the tool uses it."""

    def __init__(self, connection: duckdb.DuckDBPyConnection) -> None:
        self.connection = connection
        # Every cast and print of a time depends on the session's zone; the store is UTC throughout.
        connection.execute("SET timezone = 'UTC'")

    def run(self, folder: str, name: str, /, **values: object) -> pl.DataFrame:
        """Run the statements of `queries/FOLDER/NNN_NAME.sql` in order.

        Args:
            folder: folder of `queries/`.
            name: the file's name without its number.
            **values: values bound to `$name`; those a statement does not name are left out.

        Returns:
            The rows of the last statement; an empty frame where it gives none.

        Raises:
            UsageError: there is no such file.
        """
        result = pl.DataFrame()
        for statement in sql_file(folder, name).statements:
            result = self.query(statement, values)
        return result

    def template(
        self, folder: str, name: str, parts: Mapping[str, str], /, **values: object
    ) -> pl.DataFrame:
        """Run a file whose `{part}` places are filled with quoted identifiers first."""
        result = pl.DataFrame()
        for statement in sql_file(folder, name).statements:
            result = self.query(filled(statement, parts), values)
        return result

    def run_all(self, folder: str, **values: object) -> None:
        """Run every file of a folder in the order of the numbers."""
        for file in sql_files(folder):
            for statement in file.statements:
                self.execute(statement, values)

    def view(self, name: str, /, **equals: object) -> pl.DataFrame:
        """Return the rows of a view or table where each named column has the given value (null matches null).

        Raises:
            UsageError: there is no such view or table.
        """
        try:
            relation = self.connection.table(name)
        except duckdb.CatalogException as error:
            raise UsageError(
                f"there is no table or view named '{name}'", hint="eol sql --words lists them."
            ) from error
        for column, value in equals.items():
            condition = duckdb.ColumnExpression(column)
            relation = relation.filter(
                condition.isnull()
                if value is None
                else condition == duckdb.ConstantExpression(value)
            )
        frame: pl.DataFrame = relation.pl()
        return frame

    def has_relation(self, name: str) -> bool:
        """Tell whether the database holds a table or view of that name."""
        return bool(self.query_rows("store", "relation_exists", name=name))

    def query_rows(self, folder: str, name: str, /, **values: object) -> list[tuple[Any, ...]]:
        """Run a file of one statement and return its rows as tuples."""
        (statement,) = sql_file(folder, name).statements
        return self.execute(statement, values).fetchall()

    def query(self, statement: str, values: Mapping[str, object]) -> pl.DataFrame:
        """Run one statement and return its rows, an empty frame where it gives none."""
        if _CHANGES.match(statement):
            self.execute(statement, values)
            return pl.DataFrame()
        relation = self.connection.sql(statement, params=bound(statement, values))
        frame: pl.DataFrame = pl.DataFrame() if relation is None else relation.pl()
        return frame

    def execute(self, statement: str, values: Mapping[str, object]) -> duckdb.DuckDBPyConnection:
        """Run one statement without fetching its rows."""
        return self.connection.execute(statement, bound(statement, values))

    @contextmanager
    def lent(self, name: str, frame: pl.DataFrame) -> Iterator[None]:
        """Let SQL see a frame under a name while the block runs."""
        self.connection.register(name, _in_batches(frame))
        try:
            yield
        except BaseException:
            self._clear_up(lambda: self.connection.unregister(name))
            raise
        self.connection.unregister(name)

    @contextmanager
    def transaction(self) -> Iterator[None]:
        """Commit what the block did, or nothing of it."""
        self.connection.begin()
        try:
            yield
        except BaseException:
            self._clear_up(self.connection.rollback)
            raise
        self.connection.commit()

    def close(self) -> None:
        """Close the connection."""
        self.connection.close()

    def _clear_up(self, step: Callable[[], object]) -> None:
        """Do what an error leaves to do; that it cannot be done any more must not hide the error."""
        with suppress(duckdb.Error):
            step()


def _in_batches(frame: pl.DataFrame) -> pa.Table:
    """The frame as Arrow, a large one in batches of a row group each.

    A batch is what one of DuckDB's threads reads at a time. A row group is written as it comes, and not put
    together from the pieces that files were read in.
    """
    whole = frame.rechunk() if frame.height > _ROW_GROUP else frame
    table = whole.to_arrow(compat_level=pl.CompatLevel.newest())
    return pa.Table.from_batches(table.to_batches(max_chunksize=_ROW_GROUP), schema=table.schema)


def filled(statement: str, parts: Mapping[str, str]) -> str:
    """Fill the `{part}` places of a statement."""
    for name, text in parts.items():
        statement = statement.replace("{" + name + "}", text)
    return statement


def bound(statement: str, values: Mapping[str, object]) -> dict[str, object]:
    """Keep the values that a statement names; DuckDB refuses those it does not."""
    named = set(_PARAMETER.findall(statement))
    return {name: value for name, value in values.items() if name in named}
