"""One open database: named files, templates, views by equality, frames lent, transactions."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime

import duckdb
import polars as pl
import pytest

from eol.errors import UsageError
from eol.store.database import Database, bound, filled, quoted, quoted_list


@pytest.fixture
def database() -> Iterator[Database]:
    """An empty database in memory."""
    opened = Database(duckdb.connect())
    yield opened
    opened.close()


def test_names_are_quoted() -> None:
    """A name with a quote in it cannot leave its quotes."""
    assert quoted('a"b') == '"a""b"'
    assert quoted_list(("a", "b"), "t.") == 't."a", t."b"'


def test_template_places_are_filled() -> None:
    """Each {place} is filled, all else stays."""
    assert filled("FROM {table} WHERE {key} > $key", {"table": '"t"', "key": '"k"'}) == (
        'FROM "t" WHERE "k" > $key'
    )


def test_only_named_values_are_bound() -> None:
    """Values that a statement does not name are left out, as DuckDB refuses them."""
    assert bound("SELECT $a", {"a": 1, "b": 2}) == {"a": 1}


def test_unknown_query_is_told(database: Database) -> None:
    """A file that is not there is a wrong call, and the message names those that are."""
    with pytest.raises(UsageError, match=r"no query named 'nothing'[\s\S]*data_clock"):
        database.run("store", "nothing")


def test_view_is_filtered_by_equality(database: Database) -> None:
    """Each named column has the given value; None asks for null."""
    database.execute(
        "CREATE TABLE t AS FROM (VALUES (1, 'a'), (2, NULL), (3, 'a')) AS v (n, s)", {}
    )
    assert database.view("t", s="a")["n"].to_list() == [1, 3]
    assert database.view("t", s=None)["n"].to_list() == [2]
    assert database.view("t", s="a", n=3).height == 1


def test_view_takes_values_not_sql(database: Database) -> None:
    """A value with a quote in it is a value."""
    database.execute("CREATE TABLE t AS SELECT 'a' AS s", {})
    assert database.view("t", s="' OR true --").is_empty()


def test_unknown_view_is_told(database: Database) -> None:
    """A table that is not there is a wrong call."""
    with pytest.raises(UsageError, match="no table or view named 'nothing'"):
        database.view("nothing")


def test_frame_is_lent_while_the_block_runs(database: Database) -> None:
    """SQL sees a lent frame under its name, and no longer than the block."""
    with database.lent("arriving", pl.DataFrame({"n": [1, 2]})):
        assert database.query("SELECT sum(n) AS n FROM arriving", {})["n"].to_list() == [3]
    with pytest.raises(duckdb.CatalogException):
        database.query("FROM arriving", {})


def test_times_are_utc(database: Database) -> None:
    """A time goes in with its zone and comes out in UTC, whatever the machine's zone is."""
    noon = datetime(2026, 9, 8, 12, tzinfo=UTC)
    frame = database.query("SELECT $noon AS t, cast($noon AS VARCHAR) AS s", {"noon": noon})
    assert frame.row(0) == (noon, "2026-09-08 12:00:00+00")


def test_statement_without_rows_gives_an_empty_frame(database: Database) -> None:
    """A statement that gives nothing gives an empty frame."""
    assert database.query("CREATE TABLE t (n INTEGER)", {}).is_empty()


def test_failed_transaction_leaves_nothing(database: Database) -> None:
    """Of a block that fails nothing stays, of one that ends well everything."""
    database.execute("CREATE TABLE t (n INTEGER)", {})
    with pytest.raises(duckdb.CatalogException), database.transaction():
        database.execute("INSERT INTO t VALUES (1); FROM nowhere", {})
    with database.transaction():
        database.execute("INSERT INTO t VALUES (2)", {})
    assert database.view("t")["n"].to_list() == [2]


def test_first_error_is_the_one_that_is_told(database: Database) -> None:
    """What cannot be cleared up after an error in a transaction does not hide it."""
    frame, statement = pl.DataFrame({"n": [1]}), "SELECT error('the cause') FROM arriving"
    with (
        pytest.raises(duckdb.InvalidInputException, match="the cause"),
        database.transaction(),
        database.lent("arriving", frame),
    ):
        database.query(statement, {})
    with database.lent("arriving", frame):
        assert database.query("FROM arriving", {}).height == 1
