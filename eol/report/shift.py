"""Writes the page of one shift into the plant's reports, whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Mapping
from contextlib import suppress
from datetime import date
from pathlib import Path

from eol.errors import ReportError
from eol.facts.reader import Reader
from eol.facts.shift import USUAL_SHIFTS, ShiftFacts, shift_facts
from eol.figures.links import place_id
from eol.report.formats import Form
from eol.report.page import build_page


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
    facts: ShiftFacts, reports: Path, *, paper: str = "A4", form: Form | None = None
) -> Path:
    """Write the page of a shift from its facts, as `write_report` does."""
    path = reports / page_name(facts.header.production_date, facts.header.shift)
    _write_whole(path, build_page(facts, paper=paper, form=form))
    return path


def page_name(production_date: date, shift: str | None) -> str:
    """Return the file name of a shift's page.

    Example:
        >>> page_name(date(2026, 9, 18), "day")
        '2026-09-18_day.html'
    """
    return f"{production_date.isoformat()}_{place_id('', shift or 'between').lstrip('-')}.html"


def _write_whole(path: Path, text: str) -> None:
    """Write beside the target and put it in place at once: a reader never sees half a page."""
    beside = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        beside.write_text(text, encoding="utf-8", newline="\n")
        beside.replace(path)
    except OSError as error:
        with suppress(OSError):
            beside.unlink()
        raise ReportError(
            f"the page cannot be written: {error.strerror}",
            where=str(path),
            hint="Make room or mend the folder's rights, then run eol report again.",
        ) from error
