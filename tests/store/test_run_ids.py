"""Ids for runs and for what came with them: made of what names a run alone (rule 1)."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime

import polars as pl
import pytest

from eol.store.connect import open_apart
from eol.store.database import Database
from eol.store.run_ids import with_run_ids

START = datetime(2026, 9, 8, 6, tzinfo=UTC)
NAMED = {
    "vin": pl.String(),
    "test": pl.String(),
    "station": pl.String(),
    "started_at": pl.Datetime("us", "UTC"),
    "run_ref": pl.String(),
    "file_row": pl.Int64(),
}


@pytest.fixture(scope="module")
def beside() -> Iterator[Database]:
    """A database that holds nothing."""
    with open_apart({}) as database:
        yield database


def rows(*told: tuple[str, str | None, int], **more: object) -> pl.DataFrame:
    """Rows of the station W1: vin, the bench's name of the run and the row in the file."""
    frame = pl.DataFrame(
        [(vin, "water", "W1", START, ref, row) for vin, ref, row in told], NAMED, orient="row"
    )
    return frame.with_columns(pl.lit(value).alias(name) for name, value in more.items())


def tables(runs: pl.DataFrame, findings: pl.DataFrame) -> dict[str, pl.DataFrame]:
    """The tables of a file, without readings."""
    return {"run": runs, "finding": findings, "reading": rows(name="pressure_kpa")}


def test_file_without_runs_is_left_as_it_is(beside: Database) -> None:
    """Findings that came apart wait for their run under its name."""
    apart = {"finding": rows(("U1", None, 1), code="LEAK")}
    assert with_run_ids(beside, apart) is apart


def test_an_id_is_made_of_second_and_name(beside: Database) -> None:
    """The start's second leads; under the bench's own name the unit has no part in it, else it has."""
    told = rows(("U1", None, 1), ("U2", None, 2), ("U1", "R-1", 3), ("U2", "R-1", 4))
    runs = with_run_ids(beside, tables(told, rows(code="LEAK")))["run"]
    assert runs["file_row"].to_list() == [1, 2, 3, 4]
    assert set(runs["run_id"] // 2**30) == {int(START.timestamp())}
    one, other, named, also_named = runs["run_id"]
    assert len({one, other, named}) == 3
    assert named == also_named
    again = with_run_ids(beside, tables(told.reverse(), rows(code="LEAK")))["run"]
    assert again["run_id"].to_list() == runs["run_id"].to_list()[::-1]


def test_findings_have_the_id_of_their_run(beside: Database) -> None:
    """A finding of the run's own row, and one of a later row that names the same run."""
    found = rows(("U1", None, 1), ("U1", None, 2), ("U2", None, 3), code="LEAK")
    named = with_run_ids(beside, tables(rows(("U1", None, 1), ("U2", None, 3)), found))
    ids = dict(named["run"].select("vin", "run_id").iter_rows())
    assert sorted(named["finding"].select("vin", "run_id").iter_rows()) == sorted(
        (vin, ids[vin]) for vin in ("U1", "U1", "U2")
    )
