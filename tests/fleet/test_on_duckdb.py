"""DuckDB runs views plant by plant, and questions over all plants."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import polars as pl

from eol.fleet.asked import Asked, Engine
from eol.sqlfiles import SqlFile, sql_file

FTT = sql_file("views", "ftt_by_shift")


def test_plant_is_the_first_column(on_duckdb: Engine) -> None:
    """Every row says of which plant it is; the view's own columns follow."""
    rows = on_duckdb.rows(Asked(FTT))
    assert rows.columns[:4] == ["plant", "production_date", "shift", "crew"]
    assert set(rows["plant"]) == {"north", "south", "west"}


def test_dates_bound_a_view(on_duckdb: Engine) -> None:
    """First and last production date are kept, both included; a view without dates is whole."""
    day = date(2026, 9, 7)
    rows = on_duckdb.rows(Asked(FTT, day, day))
    assert set(rows["production_date"]) == {day}
    assert on_duckdb.rows(Asked(sql_file("views", "as_of"), day, day)).height == 3


def test_question_sees_all_plants(on_duckdb: Engine) -> None:
    """A question names views and tables with the plant in them, and values."""
    text = "SELECT run.plant, count(*) AS runs FROM run WHERE run.test = $test GROUP BY run.plant"
    asked = Asked(SqlFile("fleet", "made_up", text), values={"test": "water", "unused": None})
    assert on_duckdb.rows(asked).height == 3


def test_rows_as_a_file(on_duckdb: Engine, tmp_path: Path) -> None:
    """Parquet holds the rows of all plants."""
    on_duckdb.write(Asked(FTT), tmp_path / "ftt.parquet")
    assert pl.read_parquet(tmp_path / "ftt.parquet").equals(on_duckdb.rows(Asked(FTT)))
