"""Writes the page of a plant's shift from its published copy, with the targets and paper of plant.toml."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from eol.errors import UsageError
from eol.facts.reader import Reader
from eol.facts.which_shift import last_shift, named_shift
from eol.plant.folder import PlantFolder
from eol.plant.settings import read_settings
from eol.report.formats import Form
from eol.report.shift import write_report
from eol.store.connect import open_copy


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
        production_date, name = _last_shift(copy) if shift is None else named_shift(copy, shift)
        return write_report(
            copy,
            folder.reports,
            production_date=production_date,
            shift=name,
            target=settings.report.target,
            usual_shifts=settings.report.usual_shifts,
            paper=settings.report.paper,
            form=Form(settings.report.dates, settings.report.decimal),
        )


def _last_shift(copy: Reader) -> tuple[date, str]:
    ended = last_shift(copy)
    if ended is None:
        raise UsageError(
            "no shift has ended yet by the data received",
            hint="Load files with eol ingest, or name a shift with --shift DATE/SHIFT.",
        )
    return ended
