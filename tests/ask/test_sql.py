"""Analyst SQL: reads everything, writes nothing, reaches no other file."""

from __future__ import annotations

from datetime import UTC, datetime

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
    """A value is given by name, never pasted into the text."""
    frame = ask_copy(
        small_plant, "SELECT count(*) AS n FROM run WHERE vin = $vin", {"vin": vin("U2")}
    )
    assert frame["n"].to_list() == [3]


def test_times_are_utc(small_plant: PlantFolder) -> None:
    """06:30 at the plant is 04:30 in the answer."""
    frame = ask_copy(small_plant, "SELECT DISTINCT line_off_at FROM unit WHERE kind = 'production'")
    assert frame["line_off_at"].to_list() == [datetime(2026, 9, 8, 4, 30, tzinfo=UTC)]


@pytest.mark.parametrize(
    "statement",
    [
        "DELETE FROM run",
        "CREATE TABLE mine AS SELECT 1 AS n",
        "CREATE OR REPLACE VIEW first_run AS SELECT 1 AS n",
        "COPY run TO '{place}/run.csv'",
        "FROM read_csv('/etc/passwd')",
        "ATTACH '{place}/other.duckdb'",
        "INSTALL httpfs",
        "SET enable_external_access = true",
    ],
)
def test_statement_that_reaches_out_is_refused(small_plant: PlantFolder, statement: str) -> None:
    """Nothing is written, no other file is read and the guard cannot be lifted."""
    before = small_plant.read_copy.read_bytes(), set(small_plant.reports.iterdir())
    with pytest.raises(UsageError, match="the statement cannot be run"):
        ask_copy(small_plant, statement.format(place=small_plant.reports))
    assert (small_plant.read_copy.read_bytes(), set(small_plant.reports.iterdir())) == before


@pytest.mark.parametrize("statement", ["SELEKT 1", "FROM nowhere", "", "SELECT $missing"])
def test_wrong_statement_is_told(small_plant: PlantFolder, statement: str) -> None:
    """A statement that cannot be run is the caller's, with DuckDB's words and what to look at."""
    with pytest.raises(UsageError, match="eol sql"):
        ask_copy(small_plant, statement)
