"""Analyst SQL: reads everything, writes nothing, reaches no other file."""

from __future__ import annotations

from datetime import UTC, datetime

import polars as pl
import pytest
from plants import vin

from eol.ask.sql import ask_copy
from eol.errors import UsageError
from eol.plant.folder import PlantFolder


def test_statement_gives_rows(small_plant: PlantFolder) -> None:
    """An answer is a frame with the statement's columns."""
    frame = ask_copy(
        small_plant, "SELECT test, tested, passed_first FROM ftt_by_shift ORDER BY test"
    )
    assert frame.rows() == [("electrical", 3, 3), ("water", 3, 1)]


def test_values_are_bound(small_plant: PlantFolder) -> None:
    """A value is given by name, never pasted into the text; one that is not asked for is left out."""
    frame = ask_copy(
        small_plant, "SELECT count(*) AS n FROM run WHERE vin = $vin", {"vin": vin("U2"), "x": 1}
    )
    assert frame["n"].to_list() == [3]


def test_times_are_utc(small_plant: PlantFolder) -> None:
    """06:30 at the plant is 04:30 in the answer."""
    frame = ask_copy(small_plant, "SELECT DISTINCT line_off_at FROM unit WHERE kind = 'production'")
    assert frame["line_off_at"].to_list() == [datetime(2026, 9, 8, 4, 30, tzinfo=UTC)]


def test_kinds_that_a_person_expects(small_plant: PlantFolder) -> None:
    """A sum of whole numbers is whole, a span of time is text, null has a column too."""
    frame = ask_copy(
        small_plant, "SELECT sum(rows) AS n, INTERVAL 3 DAY AS i, NULL AS z FROM source_file"
    )
    assert frame.schema["n"] == pl.Int64
    assert frame.select("i", "z").rows() == [("3 days", None)]


@pytest.mark.parametrize(
    "statement",
    [
        "DESCRIBE run",
        "SHOW TABLES",
        "SUMMARIZE ftt_by_shift",
        "EXPLAIN FROM run",
        "EXPLAIN ANALYZE SELECT 1",
        "-- a remark\nFROM run LIMIT 1;",
        "VALUES (1)",
        "SELECT * FROM superseded.run UNION ALL SELECT * FROM run",
        "FROM duckdb_views() WHERE NOT internal",
        "PIVOT run ON test IN ('water', 'electrical') USING count(*) GROUP BY result",
        "SELECT json_extract(key, '$.test') FROM figure_sent, range(2)",
    ],
)
def test_what_only_reads_runs(small_plant: PlantFolder, statement: str) -> None:
    """Every way to read is open, the catalogue of the database too."""
    assert ask_copy(small_plant, statement).width > 0


@pytest.mark.parametrize(
    ("statement", "words"),
    [
        ("SELEKT 1", "eol sql --words"),
        ("FROM nowhere", "nowhere"),
        ("", "there is no statement"),
        (" -- nothing", "there is no statement"),
        ("SELECT $missing", "missing"),
        ("SELECT 1; SELECT 2", "there are 2 statements"),
        ("COPY run TO 'x'", "--to FILE"),
        ("PIVOT run ON test USING count(*)", "Name the columns of a PIVOT"),
    ],
)
def test_wrong_statement_is_told(small_plant: PlantFolder, statement: str, words: str) -> None:
    """A statement that cannot be run is the caller's, with what to do instead."""
    with pytest.raises(UsageError, match=words):
        ask_copy(small_plant, statement)
