"""`eol sql`: rows as a table, CSV, JSON or a file; a wrong statement is exit 2."""

from __future__ import annotations

import signal
import subprocess
import sys
import time
from io import StringIO
from pathlib import Path

import polars as pl
import pytest
from called import Eol

from eol.ask.questions import questions
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
    """JSON for programs: one object a row, numbers as numbers, also exact ones."""
    rows = eol("--plant", small_plant.root, "sql", QUESTION, "--json").json
    assert rows == [
        {"test": "electrical", "tested": 3, "ftt": 1.0},
        {"test": "water", "tested": 3, "ftt": 1 / 3},
    ]
    assert eol("--plant", small_plant.root, "sql", "SELECT 1.25 AS n", "--json").json == [
        {"n": 1.25}
    ]


def test_statement_from_standard_input(
    eol: Eol, small_plant: PlantFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without a statement the command reads one."""
    monkeypatch.setattr("sys.stdin", StringIO("SELECT 7 AS n"))
    assert eol("--plant", small_plant.root, "sql", "--json").json == [{"n": 7}]


def test_statement_from_a_file(eol: Eol, small_plant: PlantFolder, tmp_path: Path) -> None:
    """A file with a statement, values set, an answer written as its suffix says."""
    (tmp_path / "a.sql").write_text("\ufeff-- mine\nSELECT $shift AS shift, $n + 1 AS n;", "utf-8")
    target = tmp_path / "a.parquet"
    answer = eol(
        "--plant", small_plant.root, "sql", "-f", tmp_path / "a.sql", "--set", "shift=day",
        "--set", "n=6", "--to", target,
    )  # fmt: skip
    assert (answer.code, answer.out.strip(), answer.err.strip()) == (0, str(target), "1 row")
    assert pl.read_parquet(target).rows() == [("day", 7)]


def test_attached(eol: Eol, small_plant: PlantFolder, tmp_path: Path) -> None:
    """Other data stand beside the copy."""
    (tmp_path / "claims.csv").write_text("vin,n\nx,3\n")
    answer = eol(
        "--plant", small_plant.root, "sql", "SELECT n FROM claims", "--json",
        "--attach", f"claims={tmp_path / 'claims.csv'}",
    )  # fmt: skip
    assert answer.json == [{"n": 3}]


@pytest.mark.parametrize("statement", ["SELEKT 1", "FROM nowhere", " "])
def test_wrong_statement(eol: Eol, small_plant: PlantFolder, statement: str) -> None:
    """A statement that cannot be run: exit 2 and what to look at."""
    answer = eol("--plant", small_plant.root, "sql", statement)
    assert (answer.code, answer.out) == (2, "")
    assert "eol sql --words" in answer.err


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["DELETE FROM run"], "can only read"),
        (["SELECT 1", "-f", "a.sql"], "not both"),
        (["-f", "nowhere.sql"], "cannot be read"),
        (["SELECT 1", "--memory", "much"], "no size of memory"),
        (["SELECT 1", "--set", "x"], "not name=value"),
        (["SELECT 1", "--to", "a.docx"], "cannot be written as '.docx'"),
        (["SELECT count(*) FROM range(1e9::INT) a, range(1e9::INT) b", "--seconds", "0.1"], "was stopped"),
        (["--ask", "nothing"], "no worked question"),
        (["--words", "nothing"], "no table or view"),
    ],
)  # fmt: skip
def test_wrong_call(eol: Eol, small_plant: PlantFolder, arguments: list[str], words: str) -> None:
    """What cannot be done is exit 2, in words."""
    answer = eol("--plant", small_plant.root, "sql", *arguments)
    assert (answer.code, answer.out) == (2, "")
    assert words in answer.err


def test_questions_are_listed(eol: Eol, small_plant: PlantFolder) -> None:
    """`--ask` lists the worked questions; with --text one of them comes as SQL."""
    listed = eol("--plant", small_plant.root, "sql", "--ask").out
    assert all(asked.name in listed for asked in questions())
    answer = eol("--plant", small_plant.root, "sql", "--ask", "bench_faults", "--text")
    assert answer.out == next(q.text for q in questions() if q.name == "bench_faults")


def test_question_is_asked(eol: Eol, small_plant: PlantFolder) -> None:
    """`--ask NAME` asks it, with values where they are set."""
    arguments = ("sql", "--ask", "throughput", "--set", "test=water", "--json")
    rows = eol("--plant", small_plant.root, *arguments).json
    assert [(row["test"], row["runs"]) for row in rows] == [("water", 5)]


def test_words(eol: Eol, small_plant: PlantFolder) -> None:
    """`--words` tells what there is, and one table or view column by column."""
    listed = eol("--plant", small_plant.root, "sql", "--words")
    assert "ftt_by_shift" in listed.out
    assert "superseded.run" in listed.out
    told = eol("--plant", small_plant.root, "sql", "--words", "open_unit", "--json").json
    [hours] = [column for column in told["columns"] if column["name"] == "hours"]
    assert (hours["unit"], hours["type"]) == ("h", "DOUBLE")


def test_words_as_a_page(eol: Eol, folder: PlantFolder) -> None:
    """`--words --page` writes the dictionary among the reports and prints where it lies."""
    answer = eol("--plant", folder.root, "sql", "--words", "--page")
    assert answer.out.strip() == str(folder.reports / "dictionary.html")
    assert (folder.reports / "dictionary.html").exists()


@pytest.mark.slow
def test_statement_that_never_looks_up(small_plant: PlantFolder) -> None:
    """One text of gigabytes cannot be interrupted: the command says so and ends, within its grace."""
    line = [
        "--plant",
        str(small_plant.root),
        "sql",
        "SELECT lpad('x', 2000000000, 'y')",
        "--seconds",
        "1",
    ]
    ran = subprocess.run(
        [sys.executable, "-m", "eol", *line], capture_output=True, text=True, timeout=60
    )
    assert ran.returncode in {2, 3}
    assert "was stopped" in ran.stderr


@pytest.mark.slow
@pytest.mark.parametrize("seconds", [1.5, 2, 3, 4])
def test_ctrl_c_stops_a_statement(small_plant: PlantFolder, seconds: float) -> None:
    """Ctrl-C ends a statement whenever it comes, with an exit code of its own and without a traceback."""
    text = "SELECT count(*) FROM range(1000000000) AS a, range(100000) AS b"
    line = [sys.executable, "-m", "eol", "--plant", str(small_plant.root), "sql", text]
    with subprocess.Popen(line, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as asked:
        time.sleep(seconds)
        asked.send_signal(signal.SIGINT)
        _, told = asked.communicate(timeout=60)
    assert asked.returncode == 130
    assert "interrupted" in told
    assert "Traceback" not in told
