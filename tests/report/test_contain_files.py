"""The forms of a suspect list: the caution on each, no cell that runs, a page that needs nothing."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import polars as pl
import pytest

from eol.errors import ReportError
from eol.facts.contain import SuspectList
from eol.facts.contain_edges import Edge
from eol.facts.contain_evidence import SuspectUnit
from eol.facts.contain_question import ContainQuestion
from eol.report.contain_files import (
    CAUTION,
    contain_page,
    harmless,
    heading,
    lines_of,
    risk_words,
    write_files,
)
from eol.store.containments import Kept

AT = datetime(2026, 9, 20, 6, tzinfo=UTC)
KEPT = Kept("ab", 2, "f" * 64, AT, True)
UNIT = SuspectUnit("U1", 1001, "passed", "=cmd|' /C calc'!A0", 0.0093, "<b>Dry</b> it.")
EDGE = Edge(
    "U1", "U2", 1001, 1002, 2, 1, 0.5, 5, False, 0.5, "margin of 5 units at risk", "known change"
)
FOUND = SuspectList(
    question=ContainQuestion("LEAK", zone="RRQ", bay="W/B"),
    test="water",
    title="Leak",
    safety_related=False,
    handling="Dry it.",
    data_clock=AT,
    edges=(EDGE,),
    units=(UNIT, replace(UNIT, vin="-2+3", evidence="confirmed", residual_risk=None, place=None)),
    sensitivity=("W bay B: 1 of 2 reference checks good",),
    left_out=3,
    elsewhere=1,
)


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x", "\t=1", "\r=1"])
def test_cells_that_would_run(text: str) -> None:
    """CWE-1236: an apostrophe before = + - @ tab and carriage return."""
    assert harmless(text) == f"'{text}"


def test_other_cells_stay() -> None:
    """What is no formula is left alone."""
    assert [harmless(text) for text in (None, "", "repair: water")] == [None, "", "repair: water"]


def test_csv(tmp_path: Path) -> None:
    """One row a unit, harmless, numbers as numbers, the caution in each row."""
    rows = pl.read_csv(write_files(FOUND, KEPT, tmp_path).csv)
    assert rows["place"].to_list() == ["'=cmd|' /C calc'!A0", None]
    assert rows["vin"].to_list() == ["U1", "'-2+3"]
    assert rows["residual_risk"].to_list() == [0.0093, None]
    assert set(rows["caution"]) == {CAUTION}


def test_workbook(tmp_path: Path) -> None:
    """Units on one sheet, as text cells; question, edges and caution on the other."""
    path = write_files(FOUND, KEPT, tmp_path).xlsx
    units = pl.read_excel(path, sheet_name="units")
    assert units["place"][0] == "'=cmd|' /C calc'!A0"
    told = dict(pl.read_excel(path, sheet_name="list").iter_rows())
    assert told["caution"] == CAUTION
    assert told["handling"] == "Dry it."


def test_page() -> None:
    """Self-contained, escaped, with policy, caution, handling, edges and risk."""
    page = contain_page(FOUND, KEPT)
    assert "default-src 'none'" in page.replace("&#39;", "'")
    assert "<script" not in page
    assert "http" not in page.replace("http-equiv", "")
    assert page.count(CAUTION) == 2
    assert "&lt;b&gt;Dry&lt;/b&gt; it." in page
    assert "ends there: known change" in page
    assert "0.93 %" in page


def test_words() -> None:
    """What the list is of, its version, and what is left out."""
    assert heading(FOUND) == "Suspect units: LEAK Leak at RRQ passed at W/B"
    told = lines_of(FOUND, KEPT)
    assert ("list", "ab, 2026-09-20 06:00 UTC, version 2, 2 units") in told
    assert ("evidence", "1 passed, risk left 0.93 %") in told
    assert ("left out", "3 units that cannot have it by the catalogue") in told
    assert risk_words(None) == ""


def test_folder_that_cannot_be_written(tmp_path: Path) -> None:
    """A file where the folder should be: what, where, what next."""
    (tmp_path / "reports").write_text("")
    with pytest.raises(ReportError, match="cannot be written"):
        write_files(FOUND, KEPT, tmp_path / "reports")
