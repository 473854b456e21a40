"""Answers on the terminal: tables, JSON, and texts of files that cannot colour it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import UTC, date, datetime
from enum import Enum
from pathlib import Path

import polars as pl
import pytest

from eol.cli.output import cell, escaped, print_frame, print_json, print_table, say

Capture = pytest.CaptureFixture[str]


class Kind(Enum):
    """A word."""

    TRIAL = "trial"


@dataclass(frozen=True, slots=True)
class Result:
    """A result with a value of each kind."""

    path: Path
    at: datetime
    day: date
    kind: Kind
    more: tuple[str, ...]


def test_json_knows_results(capsys: Capture) -> None:
    """Results, paths, times, dates and words become plain JSON, umlauts as they are."""
    at = datetime(2026, 9, 8, 6, tzinfo=UTC)
    print_json(Result(Path("/süd"), at, at.date(), Kind.TRIAL, ("a",)))
    out = capsys.readouterr().out
    assert json.loads(out) == {
        "path": "/süd",
        "at": "2026-09-08T06:00:00+00:00",
        "day": "2026-09-08",
        "kind": "trial",
        "more": ["a"],
    }
    assert "süd" in out


def test_talk_goes_to_stderr(capsys: Capture) -> None:
    """What is said is never part of the data."""
    say("hello")
    assert capsys.readouterr() == ("", "hello\n")


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (None, ""),
        (True, "yes"),
        (False, "no"),
        (1 / 3, "0.333333"),
        (1234567, "1234567"),
        (datetime(2026, 9, 8, 6, tzinfo=UTC), "2026-09-08 06:00:00Z"),
        (date(2026, 9, 8), "2026-09-08"),
    ],
)
def test_cells(value: object, shown: str) -> None:
    """Null is empty, a share has six digits, a time says that it is UTC."""
    assert cell(value) == shown


def test_text_of_a_file_is_harmless() -> None:
    """Markup is shown as it is, control signs as a replacement."""
    assert escaped("[red]x[/red]") == r"\[red]x\[/red]"
    assert escaped("a\x1b[31mb\nc") == "a\N{REPLACEMENT CHARACTER}[31mb\N{REPLACEMENT CHARACTER}c"


def test_numbers_stand_right(capsys: Capture) -> None:
    """A column of numbers stands at its right edge, words at their left."""
    print_table(["name", "n"], [("a", 1), ("b", 1000), ("c", None)])
    lines = capsys.readouterr().out.splitlines()
    assert [line.rstrip() for line in lines[2:]] == ["a         1", "b      1000", "c"]


def test_wide_tables_are_whole(capsys: Capture) -> None:
    """In a pipe nothing is folded or cut."""
    print_table(["words"], [("x" * 500,)])
    assert "x" * 500 in capsys.readouterr().out


@pytest.mark.parametrize("kind", ["table", "csv", "json"])
def test_empty_frame(capsys: Capture, kind: str) -> None:
    """No rows is no error: the columns are named, in JSON it is an empty list."""
    frame = pl.DataFrame(schema={"test": pl.String})
    print_frame(frame, as_json=kind == "json", as_csv=kind == "csv")
    assert capsys.readouterr().out.split()[0] == {"json": "[]"}.get(kind, "test")
