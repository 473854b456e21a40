"""The files of `queries/` as Spark SQL: transpiled by sqlglot, views lifted to all plants, without COMMENTs."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date

import sqlglot
from sqlglot import expressions as exp
from sqlglot.errors import SqlglotError

from eol.errors import EngineError
from eol.fleet.lift import lifted
from eol.fleet.portable import refuse
from eol.sqlfiles import SqlFile, sql_file

Value = str | int | date | None

_COMPRESSION = re.compile(r"\s+USING COMPRESSION \w+")


def view_sql(file: SqlFile) -> str:
    """Return the query of a view as Spark SQL over all plants, the plant first.

    Raises:
        EngineError: it cannot be portable; the message gives the reason.
    """
    refuse(file)
    made = _parsed(file)
    query = made.expression if isinstance(made, exp.Create) else None
    if not isinstance(query, exp.Query):
        raise EngineError("this file makes no view", where=f"queries/{file.folder}/{file.name}")
    return _spark(lifted(query, name=file.name), file)


def question_sql(file: SqlFile, values: Mapping[str, Value]) -> str:
    """Return a question over many plants as Spark SQL, with the values it names written in.

    Raises:
        EngineError: it cannot be portable; the message gives the reason.
    """
    refuse(file)
    query = _parsed(file)
    for place in [*query.find_all(exp.Parameter), *query.find_all(exp.Placeholder)]:
        place.replace(_literal(values[place.name]))
    return _spark(query, file)


def table_schema(table: str) -> str:
    """Return the columns of a table of the store as Spark writes a schema.

    Example:
        >>> table_schema("proof_event")
        '`kind` STRING'
    """
    return ", ".join(column.sql("spark", identify=True) for column in _columns(table))


def column_names(table: str) -> list[str]:
    """Return the names of the columns of a table of the store, in order."""
    return [column.name for column in _columns(table)]


def _columns(table: str) -> list[exp.ColumnDef]:
    """The columns of a table of the store; how DuckDB compresses one is of no interest elsewhere."""
    (made,) = (text for text in sql_file("schema", table).plain_statements)
    plain = _COMPRESSION.sub("", made)
    return list(sqlglot.parse_one(plain, read="duckdb").find_all(exp.ColumnDef))


def _parsed(file: SqlFile) -> exp.Expr:
    statements = file.plain_statements
    if len(statements) != 1:
        raise EngineError(
            f"one statement was expected, there are {len(statements)}",
            where=f"queries/{file.folder}/{file.name}",
        )
    return sqlglot.parse_one(statements[0], read="duckdb")


def _spark(query: exp.Expr, file: SqlFile) -> str:
    try:
        return query.sql("spark", identify=True, unsupported_level=sqlglot.ErrorLevel.RAISE)
    except SqlglotError as error:
        raise EngineError(
            f"this cannot be written for Spark: {error}",
            where=f"queries/{file.folder}/{file.name}",
        ) from error


def _literal(value: Value) -> exp.Expr:
    if isinstance(value, date):
        return exp.cast(exp.Literal.string(value.isoformat()), exp.DataType.Type.DATE)
    if value is None:
        return exp.cast(exp.null(), exp.DataType.Type.DATE)
    return exp.convert(value)
