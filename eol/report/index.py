"""The list of the reports folder, newest first: one page that leads to all others.

It is made from the folder alone, so that the same pages give the same list.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from html import unescape
from pathlib import Path
from typing import Any

from eol.report.whole import write_whole

NAME = "index.html"
TOLD = 100
"""The newest pages, told with what they say; older ones by their names alone."""

_PAGE = re.compile(
    r"(?P<day>\d{4}-\d\d-\d\d)(?:_(?P<shift>[A-Za-z0-9-]+))?\.html|(?P<year>\d{4})-W(?P<week>\d\d)\.html"
)
_HEAD = 6_000
_META = re.compile(r'<meta name="(description|begins)" content="([^"]*)">')
_TITLE = re.compile(r"<title>([^<]*)</title>")


@dataclass(frozen=True, slots=True)
class Entry:
    """One page: its file, what it is of, what it says first, and the files beside it."""

    name: str
    day: date
    title: str
    plant: str
    begins: str
    news: tuple[str, ...]
    beside: tuple[tuple[str, str], ...]


def write_index(reports: Path) -> Path:
    """Write `index.html` from the pages that lie in a folder of reports.

    Raises:
        ReportError: the folder cannot be written to.
    """
    from eol.report.page import POLICY, template

    entries, older = index_entries(reports)
    words: dict[str, Any] = {
        "policy": POLICY,
        "plant": next((entry.plant for entry in entries if entry.plant), ""),
        "entries": entries,
        "older": older,
    }
    path = reports / NAME
    write_whole(path, template("index.html").render(**words))
    return path


def index_entries(reports: Path) -> tuple[tuple[Entry, ...], tuple[str, ...]]:
    """Return the newest pages with what they say, and the names of the older ones, newest first."""
    names = {path.name for path in reports.iterdir()}
    pages = sorted(((_day(found), name) for name, found in _pages(names)), reverse=True)
    newest = [_entry(reports, name, day, names) for day, name in pages[:TOLD]]
    newest.sort(key=lambda entry: (entry.begins, entry.name), reverse=True)
    return tuple(newest), tuple(name for _, name in pages[TOLD:])


def _pages(names: Iterable[str]) -> list[tuple[str, re.Match[str]]]:
    return [(name, found) for name in names if (found := _PAGE.fullmatch(name)) and _is_day(found)]


def _is_day(found: re.Match[str]) -> bool:
    try:
        _day(found)
    except ValueError:
        return False
    return True


def _day(found: re.Match[str]) -> date:
    """The day of a page, the last one of a week."""
    if found["day"]:
        return date.fromisoformat(found["day"])
    return date.fromisocalendar(int(found["year"]), int(found["week"]), 7)


def _entry(reports: Path, name: str, day: date, names: set[str]) -> Entry:
    try:
        with (reports / name).open(encoding="utf-8", errors="replace") as file:
            head = file.read(_HEAD)
    except OSError:
        head = ""
    told = {key: unescape(text) for key, text in _META.findall(head)}
    title = _TITLE.search(head)
    parts = unescape(title[1]).split(" · ") if title else [name]
    stem = name.removesuffix(".html")
    beside = ((f"{stem}.pdf", "PDF"), (f"{stem}.interactive.html", "interactive"))
    return Entry(
        name=name,
        day=day,
        title=" · ".join(parts[1:-1]) or name,
        plant=parts[-1] if len(parts) > 1 else "",
        begins=told.get("begins") or day.isoformat(),
        news=tuple(part for part in told.get("description", "").split(" | ") if part),
        beside=tuple(each for each in beside if each[0] in names),
    )
