"""The list of the reports folder."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

from made_up_shift import quiet_shift

from eol.report import index
from eol.report.index import index_entries, write_index
from eol.report.page import build_page


def page(
    reports: Path, name: str, *, news: str = "90.0% | quiet: Nothing", begins: str = ""
) -> None:
    """Write what the list reads of a page."""
    head = f'<meta name="description" content="{news}"><meta name="begins" content="{begins}">'
    title = f"<title>Final line · {name} · Quillbrook</title>"
    (reports / name).write_text(head + title, encoding="utf-8")


def shown(reports: Path) -> list[str]:
    """Return the pages that the list leads to, in its order."""
    text = write_index(reports).read_text(encoding="utf-8")
    return re.findall(r'<th scope="row"><a href="([^"]+)"', text)


def test_newest_first_whatever_they_are_of(tmp_path: Path) -> None:
    """Shifts, days and weeks stand by when they begin, whenever they were written."""
    page(tmp_path, "2026-09-15_day.html", begins="2026-09-15T06:00:00")
    page(tmp_path, "2026-09-14_night.html", begins="2026-09-14T18:00:00")
    page(tmp_path, "2026-09-14_day.html", begins="2026-09-14T06:00:00")
    page(tmp_path, "2026-W37.html", begins="2026-09-07T06:00:00")
    assert shown(tmp_path) == [
        "2026-09-15_day.html",
        "2026-09-14_night.html",
        "2026-09-14_day.html",
        "2026-W37.html",
    ]


def test_other_files_are_left_out(tmp_path: Path) -> None:
    """Only pages are listed; their PDF and interactive copy stand beside them."""
    for name in ("index.html", "notes.html", "2026-13-45_day.html", "2026-W60.html", "x.eml"):
        (tmp_path / name).write_text("", encoding="utf-8")
    page(tmp_path, "2026-09-14_day.html")
    (tmp_path / "2026-09-14_day.pdf").write_bytes(b"")
    (tmp_path / "2026-09-14_day.interactive.html").write_bytes(b"")
    (entry,), _ = index_entries(tmp_path)
    assert entry.name == "2026-09-14_day.html"
    assert [word for _, word in entry.beside] == ["PDF", "interactive"]


def test_same_pages_same_list(tmp_path: Path) -> None:
    """The list has no clock of its own: written again it is the same, byte for byte."""
    page(tmp_path, "2026-09-14_day.html")
    first = write_index(tmp_path).read_bytes()
    page(tmp_path, "2026-09-14_day.html")
    assert write_index(tmp_path).read_bytes() == first


def test_what_a_page_says_first(tmp_path: Path) -> None:
    """The list tells each page's line FTT and the first line that needs a look, as the page has them."""
    (tmp_path / "2026-09-18_day.html").write_text(build_page(quiet_shift()), encoding="utf-8")
    (entry,), _ = index_entries(tmp_path)
    assert entry.title == "Fri 18 Sep 2026 · day shift (06:00–14:30)"
    assert entry.plant == "Quillbrook"
    assert entry.news == ("88.8%", "quiet: Nothing needs a look")
    assert entry.begins == "2026-09-18T06:00:00"


def test_text_of_pages_stays_text(tmp_path: Path) -> None:
    """Markup in what a page says is shown, not run."""
    page(tmp_path, "2026-09-14_day.html", news="– | stop: &lt;script&gt;alert(1)&lt;/script&gt;")
    text = write_index(tmp_path).read_text(encoding="utf-8")
    assert "<script" not in text
    assert "stop: <script>alert(1)</script>" in unescape(text)


def test_older_pages_are_listed_by_name(tmp_path: Path) -> None:
    """Of very many pages only the newest are read; the others are still led to."""
    names = [f"20{at:02}-01-01_day.html" for at in range(11, 14)]
    for name in names:
        page(tmp_path, name)
    told, index.TOLD = index.TOLD, 2
    try:
        entries, older = index_entries(tmp_path)
    finally:
        index.TOLD = told
    assert [entry.name for entry in entries] == names[:0:-1]
    assert older == (names[0],)
