"""Runs the cases that an analyst can read and write: `<view>/<case>/given_<table>.csv` in, `expect.csv` out.

A case stands on the small plant of `plant/given_<table>.csv`; a table that the case gives
itself replaces the plant's.
What stamps repeat of the unit in its runs, and the newest run of a station, is told by neither.
`expect.csv` names the columns it speaks of; the rows of the view may come in any order.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path

import duckdb
import pytest
from stamped_cases import stamped

from eol.sqlfiles import sql_files

FOLDER = Path(__file__).parent
PLANT = FOLDER / "plant"
CASES = sorted(path.parent for path in FOLDER.glob("*/*/expect.csv"))


@pytest.fixture(scope="module")
def store() -> Iterator[duckdb.DuckDBPyConnection]:
    """An empty store in memory with all tables and views."""
    connection = duckdb.connect(":memory:", config={"threads": 1})
    connection.execute("SET timezone = 'UTC'")
    for file in (*sql_files("schema"), *sql_files("views")):
        for statement in file.plain_statements:
            connection.execute(statement)
    yield connection
    connection.close()


@pytest.fixture
def emptied(store: duckdb.DuckDBPyConnection) -> Iterator[duckdb.DuckDBPyConnection]:
    """The same store, emptied again after the test."""
    store.execute("BEGIN TRANSACTION")
    yield store
    store.execute("ROLLBACK")


def given_files(case: Path) -> dict[str, Path]:
    """Return the file of each table that a case gives, the plant's where it gives none."""
    files = [*PLANT.glob("given_*.csv"), *case.glob("given_*.csv")]
    return {path.stem.removeprefix("given_"): path for path in files}


def fill(connection: duckdb.DuckDBPyConnection, table: str, path: Path) -> None:
    """Put the rows of a CSV file into a table; an empty field is null."""
    text = "read_csv($path, header = true, all_varchar = true, nullstr = '', auto_detect = false, "
    names = path.read_text(encoding="utf-8").splitlines()[0].split(",")
    columns = ", ".join(f"'{name}': 'VARCHAR'" for name in names)
    source = f"{text} delim = ',', quote = '\"', columns = {{{columns}}})"
    connection.execute(f"INSERT INTO {table} BY NAME SELECT * FROM {source}", {"path": str(path)})


def same(actual: object, expected: object) -> bool:
    """Tell whether two values are equal, floats to the six digits in which cases are written."""
    if isinstance(actual, float) and isinstance(expected, float):
        return math.isclose(actual, expected, rel_tol=1e-6, abs_tol=1e-9)
    return actual == expected


def in_order(rows: list[tuple[object, ...]]) -> list[tuple[object, ...]]:
    """Return rows in one fixed order; floats are rounded so that a last digit cannot move a row."""
    return sorted(
        rows, key=lambda row: [f"{v:.4g}" if isinstance(v, float) else str(v) for v in row]
    )


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.parent.name}-{case.name}")
def test_case(emptied: duckdb.DuckDBPyConnection, case: Path) -> None:
    """The view gives the rows that the case expects, and no others."""
    for table, path in given_files(case).items():
        fill(emptied, table, path)
    emptied.execute(stamped())
    view = case.parent.name
    names = (case / "expect.csv").read_text(encoding="utf-8").splitlines()[0].split(",")
    columns = ", ".join(f'"{name}"' for name in names)
    emptied.execute(f"CREATE TEMP TABLE expected AS SELECT {columns} FROM {view} LIMIT 0")
    fill(emptied, "expected", case / "expect.csv")

    actual = in_order(emptied.execute(f"SELECT {columns} FROM {view}").fetchall())
    expected = in_order(emptied.execute("SELECT * FROM expected").fetchall())

    different = [(a, e) for a, e in zip(actual, expected, strict=False) if not all(map(same, a, e))]
    assert len(actual) == len(expected), f"rows: {actual} expected: {expected}"
    assert different == []


def test_each_view_has_cases() -> None:
    """Every view has a plain case, an empty one and a trap."""
    for file in sql_files("views"):
        names = {case.name.split("_")[0] for case in CASES if case.parent.name == file.name}
        assert {"plain", "empty", "trap"} <= names, file.name
