"""Answers as files: every value as it is, and nothing that a spreadsheet would run."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime
from pathlib import Path

import polars as pl
import pytest
from polars.testing import assert_frame_equal

from eol.ask.export import csv_text, write_answer
from eol.errors import StoreError, UsageError

AT = datetime(2026, 9, 14, 4, 30, tzinfo=UTC)
FRAME = pl.DataFrame(
    {
        "word": ["=1+1", "@SUM(A1)", "plain", None],
        "n": [1, 2, 3, 2**60],
        "share": [0.1 + 0.2, float("nan"), float("inf"), None],
        "at": [AT] * 4,
        "day": [AT.date()] * 4,
        "list": [[1, 2], [], None, [3]],
        "yes": [True, False, None, True],
    }
)


def test_parquet_is_the_answer(tmp_path: Path) -> None:
    """Parquet holds every column as it is."""
    path = write_answer(FRAME, tmp_path / "a.parquet")
    assert_frame_equal(pl.read_parquet(path), FRAME)


def test_csv_runs_nothing(tmp_path: Path) -> None:
    """A text that begins like a formula gets an apostrophe, a number does not; times have their zone."""
    text = write_answer(FRAME, tmp_path / "a.csv").read_text()
    assert text == csv_text(FRAME)
    assert (
        text.splitlines()[1]
        == '\'=1+1,1,0.30000000000000004,2026-09-14T04:30:00+00:00,2026-09-14,"[1, 2]",true'
    )
    assert text.splitlines()[2].startswith("'@SUM(A1),2,NaN,")


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "\t", "\r"])
def test_signs_that_begin_a_formula(sign: str) -> None:
    """Each sign that begins a formula is made harmless, in a name too; a negative number stays a number."""
    text = csv_text(pl.DataFrame({f"{sign}a": [f"{sign}cmd|' /C calc'!A0"], "n": [-1]}))
    head, row = text.split("\n", 1)
    assert head.lstrip('"').startswith(f"'{sign}") or "\r" in sign
    assert row.lstrip('"').startswith(f"'{sign}cmd")
    assert row.rstrip().endswith(",-1")


@pytest.mark.parametrize("name", ["*", "^.*$", "^a$"])
def test_no_name_is_a_pattern(name: str, tmp_path: Path) -> None:
    """A column whose name reads like a pattern is made harmless alone, and so are its numbers."""
    frame = pl.DataFrame({"a": ["plain"], name: ["=1"], "x": [0.5]})
    assert csv_text(frame).splitlines() == [f"a,{name},x", "plain,'=1,0.5"]
    path = write_answer(pl.DataFrame({"a": [1.5], name: [float("nan")]}), tmp_path / "a.json")
    assert json.loads(path.read_text()) == [{"a": 1.5, name: None}]


def test_json(tmp_path: Path) -> None:
    """JSON has an object a row, null for what it has no number for; lines the same, one a row."""
    rows = json.loads(write_answer(FRAME, tmp_path / "a.json").read_text())
    assert rows[0] | {"n": 1} == {
        "word": "=1+1", "n": 1, "share": 0.1 + 0.2, "at": "2026-09-14T04:30:00+00:00",
        "day": "2026-09-14", "list": [1, 2], "yes": True,
    }  # fmt: skip
    assert [row["share"] for row in rows[1:]] == [None, None, None]
    lines = write_answer(FRAME, tmp_path / "a.jsonl").read_text().splitlines()
    assert [json.loads(line) for line in lines] == rows


def test_xlsx(tmp_path: Path) -> None:
    """A sheet has numbers, dates and times as such, and a formula-like text as text."""
    path = write_answer(FRAME, tmp_path / "a.xlsx")
    sheet = pl.read_excel(path)
    assert sheet["word"].to_list() == ["=1+1", "@SUM(A1)", "plain", None]
    assert sheet["at"].to_list()[0].replace(tzinfo=UTC) == AT
    assert sheet["day"].to_list()[0] == date(2026, 9, 14)
    assert sheet["n"].to_list()[:3] in ([1, 2, 3], ["1", "2", "3"])
    assert sheet["list"].to_list() == ["[1, 2]", "[]", None, "[3]"]


def test_suffix_tells_the_form(tmp_path: Path) -> None:
    """A suffix that is none of them names those that there are."""
    with pytest.raises(UsageError, match=r"cannot be written as '.docx'\n.*\.csv, \.parquet"):
        write_answer(FRAME, tmp_path / "a.docx")


def test_folder_that_is_not_there(tmp_path: Path) -> None:
    """A file that cannot be written is told with its path, and leaves nothing."""
    with pytest.raises(StoreError, match="cannot be written"):
        write_answer(FRAME, tmp_path / "no" / "a.csv")
    assert list(tmp_path.iterdir()) == []


def test_empty_answer(tmp_path: Path) -> None:
    """No rows: the names of the columns all the same."""
    for suffix in ("csv", "parquet", "json", "jsonl", "xlsx"):
        write_answer(FRAME.clear(), tmp_path / f"a.{suffix}")
    assert pl.read_parquet(tmp_path / "a.parquet").columns == FRAME.columns
    assert json.loads((tmp_path / "a.json").read_text()) == []
