"""Writes the page of one shift into the plant's reports, whole or not at all."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import date
from pathlib import Path
from typing import Literal

from eol.facts.header import Header
from eol.facts.reader import Reader
from eol.facts.shift import USUAL_SHIFTS, ShiftFacts, shift_facts
from eol.figures.links import place_id
from eol.report.formats import Form
from eol.report.index import write_index
from eol.report.page import build_page, build_pdf, week_name
from eol.report.whole import write_whole

Beside = Literal["pdf", "interactive"]
"""What may lie beside a page."""


def write_report(
    copy: Reader,
    reports: Path,
    *,
    production_date: date,
    shift: str | None,
    target: Mapping[str, float] | None = None,
    usual_shifts: int = USUAL_SHIFTS,
    paper: str = "A4",
    form: Form | None = None,
) -> Path:
    """Write the page of one shift.

    Args:
        copy: the published copy of the store.
        reports: the folder of pages; made where it is not there.
        production_date: the day the shift belongs to.
        shift: its name; None for what was tested between shifts.
        target: the plant's targets by figure.
        usual_shifts: settled shifts that make the usual ranges.
        paper: the sheet the page prints on.
        form: how the plant writes dates and numbers.

    Returns:
        The file written, `2026-09-18_day.html`; an older one of that name is replaced.

    Raises:
        ReportError: the page cannot be drawn, or the folder cannot be written to.
    """
    facts = shift_facts(
        copy,
        production_date=production_date,
        shift=shift,
        target=target,
        usual_shifts=usual_shifts,
    )
    return write_page(facts, reports, paper=paper, form=form)


def write_page(
    facts: ShiftFacts,
    reports: Path,
    *,
    paper: str = "A4",
    form: Form | None = None,
    also: Collection[Beside] = (),
) -> Path:
    """Write a page from its facts, what is wanted beside it, and the list of all pages.

    Args:
        facts: of a shift, a day or a week.
        reports: the folder of pages; made where it is not there.
        paper: the sheet the page prints on.
        form: how the plant writes dates and numbers.
        also: `pdf` for the same page as a PDF of one sheet, `interactive` for a copy whose figures
            answer to the pointer; they lie beside the page, under its name.

    Returns:
        The page; `beside_page` tells where the others lie.

    Raises:
        ReportError: the page cannot be drawn, or the folder cannot be written to.
    """
    path = reports / file_name(facts.header)
    write_whole(path, build_page(facts, paper=paper, form=form))
    if "pdf" in also:
        write_whole(beside_page(path, "pdf"), build_pdf(facts, paper=paper, form=form))
    if "interactive" in also:
        live = build_page(facts, paper=paper, form=form, interactive=True)
        write_whole(beside_page(path, "interactive"), live)
    write_index(reports)
    return path


def beside_page(page: Path, what: Beside) -> Path:
    """Return where a page's PDF or its interactive copy lies.

    Example:
        >>> beside_page(Path("2026-09-18_day.html"), "pdf").name
        '2026-09-18_day.pdf'
    """
    return page.with_suffix(".pdf" if what == "pdf" else ".interactive.html")


def file_name(header: Header) -> str:
    """Return the file name of a page: `2026-09-18_day.html`, `2026-09-18.html`, `2026-W38.html`."""
    if header.kind == "week":
        return f"{week_name(header.production_date)}.html"
    if header.kind == "day":
        return f"{header.production_date.isoformat()}.html"
    return page_name(header.production_date, header.shift)


def page_name(production_date: date, shift: str | None) -> str:
    """Return the file name of a shift's page.

    Example:
        >>> page_name(date(2026, 9, 18), "day")
        '2026-09-18_day.html'
    """
    return f"{production_date.isoformat()}_{place_id('', shift or 'between').lstrip('-')}.html"
