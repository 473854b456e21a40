"""Writing a page into the plant's reports."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from made_up_shift import empty_shift

from eol.errors import ReportError
from eol.report import shift as report
from eol.report.shift import page_name, write_report

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
    assert list(path.parent.iterdir()) == [path]


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


def test_names_of_shifts_are_made_fit_for_files() -> None:
    """A shift's name from a file cannot lead out of the folder."""
    assert page_name(DAY, None) == "2026-09-18_between.html"
    assert "/" not in page_name(DAY, "../../etc/passwd")
    assert page_name(DAY, "früh") != page_name(DAY, "fr-h")
