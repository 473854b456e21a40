"""A view lifted to all plants gives each plant the rows that it has alone."""

from __future__ import annotations

import re

import duckdb
import made_up_lake as made
import pytest
import sqlglot
from sqlglot import expressions as exp
from stamped_cases import stamped

from eol.errors import EngineError
from eol.fleet.lift import lifted
from eol.sqlfiles import SqlFile, sql_files

VIEWS = sql_files("views")


def lift(text: str) -> str:
    """Lift a query written here; the quotes round the plant are left out."""
    query = sqlglot.parse_one(text, read="duckdb")
    assert isinstance(query, exp.Query)
    return re.sub(r'"(\w+)"', r"\1", lifted(query, name="made_up").sql("duckdb"))


@pytest.mark.parametrize("file", VIEWS, ids=lambda file: file.name)
def test_every_view_can_be_lifted(file: SqlFile) -> None:
    """Each view shows the plant as its first column."""
    made_view = sqlglot.parse_one(file.plain_statements[0], read="duckdb")
    query = lifted(made_view.expression, name="view")
    first = query.selects[0]
    assert first.alias_or_name == "plant" or first.is_star


def test_joins_stay_within_a_plant() -> None:
    """Each join is held to the plant of the first source, a cross join too."""
    assert lift("SELECT a.x FROM a LEFT JOIN b ON b.k = a.k CROSS JOIN c") == (
        "SELECT a.plant AS plant, a.x FROM a LEFT JOIN b ON b.k = a.k AND b.plant = a.plant"
        " INNER JOIN c ON c.plant = a.plant"
    )


def test_groups_and_windows_are_of_a_plant() -> None:
    """A group and a window never hold rows of two plants."""
    assert lift("SELECT a.x, count(*) AS n FROM a GROUP BY a.x") == (
        "SELECT a.plant AS plant, a.x, COUNT(*) AS n FROM a GROUP BY a.plant, a.x"
    )
    assert "OVER (PARTITION BY a.plant ORDER BY a.x" in lift(
        "SELECT rank() OVER (ORDER BY a.x) AS r FROM a"
    )


def test_figure_over_all_rows_is_one_row_a_plant() -> None:
    """A plant without rows still has its row, as an empty store has."""
    assert lift("SELECT max(a.x) AS x, count(*) AS n FROM a WHERE a.y > 0") == (
        "SELECT lake_plant.plant AS plant, MAX(a.x) AS x, COUNT(a.plant) AS n FROM lake_plant"
        " LEFT JOIN a ON a.plant = lake_plant.plant AND a.y > 0 GROUP BY lake_plant.plant"
    )


def test_row_of_no_source_is_one_row_a_plant() -> None:
    """What is written out stands for each plant."""
    assert lift("SELECT 'ftt' AS measure") == (
        "SELECT lake_plant.plant AS plant, 'ftt' AS measure FROM lake_plant"
    )


def test_subquery_sees_its_own_plant() -> None:
    """EXISTS looks at rows of the same plant alone."""
    assert lift("SELECT a.x FROM a WHERE NOT EXISTS (SELECT 1 FROM b WHERE b.k = a.k)") == (
        "SELECT a.plant AS plant, a.x FROM a WHERE NOT EXISTS(SELECT 1 FROM b"
        " WHERE b.k = a.k AND b.plant = a.plant)"
    )


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("SELECT a.x FROM a LIMIT 3", "LIMIT"),
        ("SELECT a.x FROM a JOIN b USING (k)", "JOIN b USING"),
        ("SELECT a.x, count(*) FROM a GROUP BY 1", "GROUP BY with places"),
        ("SELECT a.x FROM a FULL JOIN b ON a.k = b.k", "FULL JOIN"),
        ("SELECT b.*, a.x FROM a JOIN b ON b.k = a.k", "a star"),
        ("SELECT DISTINCT ON (a.x) a.x FROM a", "DISTINCT ON"),
        ("SELECT x FROM unnest([1, 2]) AS t(x)", "a source that is no table"),
        ("SELECT a.x FROM a WHERE a.x > (SELECT max(b.x) FROM b)", "a figure over all rows"),
        (
            "SELECT a.x FROM a WHERE EXISTS (SELECT 1 FROM a WHERE a.y)",
            "under the outer one's name",
        ),
    ],
)
def test_what_cannot_be_lifted_is_refused(text: str, reason: str) -> None:
    """What is not known to be liftable is refused with its reason, never guessed."""
    with pytest.raises(EngineError, match=re.escape(reason)) as refused:
        lift(text)
    assert "queries/views/made_up" in str(refused.value)


@pytest.mark.slow
def test_lifted_views_give_what_cases_expect(store: duckdb.DuckDBPyConnection) -> None:
    """Every case of tests/queries is a plant of its own; lifted views give each what it expects."""
    cases = sorted(path.parent for path in made.QUERIES.glob("*/*/expect.csv"))
    _fill(store, [f"{case.parent.name}/{case.name}" for case in cases])
    for file in VIEWS:
        made_view = sqlglot.parse_one(file.plain_statements[0], read="duckdb")
        made_view.set("expression", lifted(made_view.expression, name=file.name))
        store.execute(made_view.sql("duckdb"))
    wrong = [case for case in cases if _wrong(store, case.parent.name, case.name)]
    assert wrong == []


def _fill(store: duckdb.DuckDBPyConnection, cases: list[str]) -> None:
    """Make each table with the plant before its columns, the rows of each case under the case's name."""
    for file in sql_files("schema"):
        for statement in file.plain_statements:
            store.execute(statement)
    tables = [row[0] for row in store.execute("SELECT table_name FROM duckdb_tables()").fetchall()]
    for table in tables:
        store.execute(f"CREATE OR REPLACE TABLE {table} AS SELECT '' AS plant, * FROM {table}")
    store.execute("CREATE TABLE lake_plant (plant VARCHAR)")
    for case in cases:
        store.execute("INSERT INTO lake_plant VALUES (?)", [case])
        for table, rows in made.tables_of([case]).items():
            store.register("rows_in", rows.to_arrow())
            store.execute(f"INSERT INTO {table} BY NAME SELECT ? AS plant, * FROM rows_in", [case])
    store.execute(stamped(plants=True))


def _wrong(store: duckdb.DuckDBPyConnection, view: str, case: str) -> bool:
    expected = made.QUERIES / view / case / "expect.csv"
    columns = expected.read_text(encoding="utf-8").splitlines()[0]
    names = ", ".join(f'"{name}"' for name in columns.split(","))
    store.execute(f"CREATE OR REPLACE TEMP TABLE expected AS SELECT {names} FROM {view} LIMIT 0")
    store.execute(
        f"INSERT INTO expected BY NAME SELECT * FROM read_csv('{expected}', all_varchar = true, nullstr = '')"
    )
    actual = store.execute(f"SELECT {names} FROM {view} WHERE plant = ?", [f"{view}/{case}"])
    return _told(actual.fetchall()) != _told(store.execute("FROM expected").fetchall())


def _told(rows: list[tuple[object, ...]]) -> list[list[str]]:
    """Rows as text in one order, floats to the digits in which cases are written."""
    return sorted([f"{v:.6g}" if isinstance(v, float) else str(v) for v in row] for row in rows)
