"""The views keep to the SQL that runs the same in DuckDB and, transpiled by sqlglot, in Spark."""

from __future__ import annotations

import re

import pytest
import sqlglot
from sqlglot import expressions as exp

from eol.sqlfiles import SqlFile, split_statements, sql_files

VIEWS = sql_files("views")

FORBIDDEN_FUNCTIONS = {
    "epoch",
    "epoch_us",
    "epoch_ms",
    "epoch_ns",
    "date_sub",
    "quantile",
    "quantile_cont",
    "quantile_disc",
    "percentile_cont",
    "generate_series",
    "range",
    "hash",
    "list",
    "array_agg",
    "list_transform",
    "list_filter",
}
"""Functions that another engine lacks, or answers otherwise."""

FORBIDDEN_WORDS = (
    r"\bASOF\b",
    r"\bPIVOT\b",
    r"\bUNPIVOT\b",
    r"[*)]\s*REPLACE\s*\(",
    r"\bBY\s+NAME\b",
    r"\bMACRO\b",
    r"->",
    r"EXTRACT\s*\(\s*(EPOCH|ISODOW)",
    r"AT\s+TIME\s+ZONE.*AT\s+TIME\s+ZONE",
    r"date_diff\(\s*'(minute|hour|day|week|month|year)'",
)
"""Syntax that another engine refuses, or reads otherwise."""


def bare(statement: str) -> str:
    """Return a statement without comments and string contents."""
    text = re.sub(r"--[^\n]*", "", statement)
    return re.sub(r"'(?!second'|minute'|hour'|day')[^']*'", "''", text)


def trees(file: SqlFile) -> list[exp.Expr]:
    """Return the parsed statements of a view."""
    return [sqlglot.parse_one(text, read="duckdb") for text in file.plain_statements]


@pytest.mark.parametrize("file", VIEWS, ids=lambda file: file.name)
def test_transpiles_to_spark(file: SqlFile) -> None:
    """Each view becomes one Spark statement, which sqlglot reads back."""
    for statement in file.plain_statements:
        spark = sqlglot.transpile(
            statement, read="duckdb", write="spark", unsupported_level=sqlglot.ErrorLevel.RAISE
        )
        assert len(spark) == 1
        sqlglot.parse_one(spark[0], read="spark")


@pytest.mark.parametrize("file", VIEWS, ids=lambda file: file.name)
def test_no_forbidden_function(file: SqlFile) -> None:
    """No view calls a function that another engine answers otherwise."""
    called = set(re.findall(r"\b([a-z_]+)\s*\(", bare(file.text).lower()))
    assert called & FORBIDDEN_FUNCTIONS == set()


@pytest.mark.parametrize("file", VIEWS, ids=lambda file: file.name)
def test_no_forbidden_syntax(file: SqlFile) -> None:
    """No view uses syntax that another engine refuses."""
    text = " ".join(bare(statement) for statement in file.plain_statements)
    assert [w for w in FORBIDDEN_WORDS if re.search(w, text, re.IGNORECASE)] == []


@pytest.mark.parametrize("file", VIEWS, ids=lambda file: file.name)
def test_sums_are_bigint(file: SqlFile) -> None:
    """A sum of whole numbers is cast to BIGINT; a sum left alone is one of demerits or logarithms."""
    loose = [
        total.sql()
        for tree in trees(file)
        for total in tree.find_all(exp.Sum)
        if total.find_ancestor(exp.Cast) is None
    ]
    assert [sql for sql in loose if not re.search(r"demerits|LN\(", sql)] == []


@pytest.mark.parametrize("file", VIEWS, ids=lambda file: file.name)
def test_ratio_is_double(file: SqlFile) -> None:
    """No ratio starts from a decimal literal: Spark would make a decimal of it."""
    assert re.findall(r"\b\d+\.\d+(?!e|\d)", bare(file.text)) == []


def test_reads_only_earlier_views() -> None:
    """A view reads only views with a lower number, so that they install one by one."""
    names = [file.name for file in VIEWS]
    for position, file in enumerate(VIEWS):
        read = {table.name for tree in trees(file) for table in tree.find_all(exp.Table)}
        assert read & set(names[position + 1 :]) == set(), file.name


def test_files_split_into_statements() -> None:
    """A semicolon in a comment ends no statement."""
    assert split_statements("-- a; b\nSELECT ';'; SELECT 2") == ("-- a; b\nSELECT ';'", "SELECT 2")
