"""Writes the page of a plant's shift from its published copy, with the targets and paper of plant.toml."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from eol.errors import UsageError
from eol.facts.reader import Reader
from eol.plant.folder import PlantFolder
from eol.plant.settings import read_settings
from eol.report.shift import write_report
from eol.store.connect import open_copy

BETWEEN = "between"
"""How a command names what was tested between two shifts."""


def report_shift(folder: PlantFolder, *, shift: str | None = None) -> Path:
    """Write the page of one shift.

    Args:
        folder: the plant folder.
        shift: `DATE/SHIFT`, such as `2026-09-08/day`, or `DATE/between` for what was tested between
            two shifts; the last shift that ended before the data clock where None.

    Returns:
        The page, in the folder `reports`.

    Raises:
        UsageError: there is no such shift, or none has ended yet.
        StoreError: nothing has been loaded yet.
        ReportError: the page cannot be drawn or written.
    """
    settings = read_settings(folder.toml)
    with open_copy(folder) as copy:
        production_date, name = _last_shift(copy) if shift is None else _named_shift(copy, shift)
        return write_report(
            copy,
            folder.reports,
            production_date=production_date,
            shift=name,
            target=settings.report.target,
            usual_shifts=settings.report.usual_shifts,
            paper=settings.report.paper,
        )


def _last_shift(copy: Reader) -> tuple[date, str]:
    rows = copy.run("page", "last_shift").rows()
    if not rows:
        raise UsageError(
            "no shift has ended yet by the data received",
            hint="Load files with eol ingest, or name a shift with --shift DATE/SHIFT.",
        )
    production_date, name = rows[0]
    return production_date, name


def _named_shift(copy: Reader, text: str) -> tuple[date, str | None]:
    day, _, name = text.partition("/")
    try:
        production_date = date.fromisoformat(day)
    except ValueError as error:
        raise UsageError(
            f"'{text}' names no shift", hint="Write it as DATE/SHIFT, such as 2026-09-08/day."
        ) from error
    known = copy.view("shift_window", production_date=production_date)["shift"].to_list()
    if name == BETWEEN:
        return production_date, None
    if name not in known:
        of_day = ", ".join(known) or "none"
        raise UsageError(f"there is no shift '{text}'", hint=f"Shifts of that day: {of_day}.")
    return production_date, name
