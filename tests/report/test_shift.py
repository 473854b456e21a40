"""Writing a page into the plant's reports."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from made_up_shift import empty_shift

from eol.errors import ReportError
from eol.facts.header import Kind
from eol.report import shift as report
from eol.report.shift import beside_page, file_name, page_name, write_page, write_report

DAY = date(2026, 9, 18)


@pytest.fixture(autouse=True)
def facts(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every shift have the facts of an empty one."""

    def made(*args: Any, **keywords: Any) -> Any:
        return empty_shift()

    monkeypatch.setattr(report, "shift_facts", made)


def write(folder: Path) -> Path:
    """Write the page of a day shift."""
    return write_report(None, folder, production_date=DAY, shift="day")  # type: ignore[arg-type]


def test_page_is_written_whole(tmp_path: Path) -> None:
    """The page lies in the reports folder under date and shift, and nothing else is left there."""
    path = write(tmp_path / "reports")
    assert path.name == "2026-09-18_day.html"
    assert path.read_text(encoding="utf-8").endswith("</html>\n")
    assert sorted(path.parent.iterdir()) == [path, path.with_name("index.html")]


def test_page_is_replaced(tmp_path: Path) -> None:
    """A second report of a shift replaces the first one."""
    first = write(tmp_path)
    first.write_text("old", encoding="utf-8")
    assert write(tmp_path).read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_folder_that_is_a_file(tmp_path: Path) -> None:
    """Where the page cannot be written the error says what, where and what next."""
    (tmp_path / "reports").write_text("", encoding="utf-8")
    with pytest.raises(ReportError, match="cannot be written") as caught:
        write(tmp_path / "reports")
    assert "then run eol report again" in str(caught.value)


@pytest.mark.slow
def test_what_is_wanted_beside_the_page(tmp_path: Path) -> None:
    """A PDF and an interactive copy lie beside the page, and the list leads to both."""
    page = write_page(empty_shift(), tmp_path, also=("pdf", "interactive"))
    assert beside_page(page, "pdf").read_bytes().startswith(b"%PDF-")
    assert "<script>" in beside_page(page, "interactive").read_text(encoding="utf-8")
    assert "<script>" not in page.read_text(encoding="utf-8")
    listed = (tmp_path / "index.html").read_text(encoding="utf-8")
    assert 'href="2026-09-18_day.pdf"' in listed
    assert 'href="2026-09-18_day.interactive.html"' in listed


@pytest.mark.parametrize(
    ("kind", "name"),
    [("shift", "2026-09-18_day.html"), ("day", "2026-09-18.html"), ("week", "2026-W38.html")],
)
def test_names_of_pages(kind: Kind, name: str) -> None:
    """A page is named by its day and shift, by its day, or by its week as ISO 8601 writes it."""
    assert file_name(replace(empty_shift().header, kind=kind)) == name


def test_names_of_shifts_are_made_fit_for_files() -> None:
    """A shift's name from a file cannot lead out of the folder."""
    assert page_name(DAY, None) == "2026-09-18_between.html"
    assert "/" not in page_name(DAY, "../../etc/passwd")
    assert page_name(DAY, "früh") != page_name(DAY, "fr-h")
