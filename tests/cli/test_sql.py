"""`eol sql`: rows as a table, CSV or JSON; a wrong statement is exit 2."""

from __future__ import annotations

from io import StringIO

import pytest
from called import Eol

from eol.plant.folder import PlantFolder

QUESTION = "SELECT test, tested, ftt FROM ftt_by_shift ORDER BY test"


def test_table(eol: Eol, small_plant: PlantFolder) -> None:
    """A table for people, whole also in a pipe."""
    answer = eol("--plant", small_plant.root, "sql", QUESTION)
    assert answer.code == 0
    lines = [line.split() for line in answer.out.splitlines()]
    assert (lines[0], lines[2:]) == (
        ["test", "tested", "ftt"],
        [["electrical", "3", "1"], ["water", "3", "0.333333"]],
    )


def test_csv(eol: Eol, small_plant: PlantFolder) -> None:
    """CSV for spreadsheets, every digit of it."""
    answer = eol("--plant", small_plant.root, "sql", QUESTION, "--csv")
    assert answer.out.splitlines()[0] == "test,tested,ftt"
    assert answer.out.splitlines()[2] == "water,3,0.3333333333333333"


def test_json(eol: Eol, small_plant: PlantFolder) -> None:
    """JSON for programs: one object a row, numbers as numbers."""
    rows = eol("--plant", small_plant.root, "sql", QUESTION, "--json").json
    assert rows == [
        {"test": "electrical", "tested": 3, "ftt": 1.0},
        {"test": "water", "tested": 3, "ftt": 1 / 3},
    ]


def test_statement_from_standard_input(
    eol: Eol, small_plant: PlantFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without a statement the command reads one."""
    monkeypatch.setattr("sys.stdin", StringIO("SELECT 7 AS n"))
    assert eol("--plant", small_plant.root, "sql", "--json").json == [{"n": 7}]


@pytest.mark.parametrize("statement", ["SELEKT 1", "DELETE FROM run", " "])
def test_wrong_statement(eol: Eol, small_plant: PlantFolder, statement: str) -> None:
    """A statement that cannot be run, or would write: exit 2 and what to look at."""
    answer = eol("--plant", small_plant.root, "sql", statement)
    assert (answer.code, answer.out) == (2, "")
    assert "lists the views" in answer.err
