"""Writes the page of a shift, a day or a week from the published copy, as plant.toml has it."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from datetime import date
from pathlib import Path

from eol.errors import StoreError, UsageError
from eol.facts.answers import QUESTIONS, shift_answers
from eol.facts.period import Period, named_day, named_week, period_facts
from eol.facts.reader import Reader
from eol.facts.shift import ShiftFacts, shift_facts
from eol.facts.which_shift import last_shift, named_shift
from eol.load.answers import write_answers
from eol.plant.folder import PlantFolder
from eol.plant.settings import Settings, read_settings
from eol.report.formats import Form
from eol.report.shift import Beside, write_page
from eol.store.connect import open_copy


def report_shift(
    folder: PlantFolder,
    *,
    shift: str | None = None,
    also: Collection[Beside] = (),
    wait_seconds: float = 60,
) -> Path:
    """Write the page of one shift, and what was computed for it into the table `answer`.

    Args:
        folder: the plant folder.
        shift: `DATE/SHIFT`, such as `2026-09-08/day`, or `DATE/between` for what was tested between
            two shifts; the last shift that ended before the data clock where None.
        also: `pdf`, `interactive`: written beside the page, as `write_page` has it.
        wait_seconds: how long to wait for another process that writes; then the page says that the
            answers are not in the store.

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
        facts = shift_facts(
            copy,
            production_date=production_date,
            shift=name,
            target=settings.report.target,
            usual_shifts=settings.report.usual_shifts,
            grace=settings.schedule.grace,
        )
    return _written(
        folder, settings, keep_answers(folder, facts, wait_seconds=wait_seconds), also=also
    )


def report_day(folder: PlantFolder, day: str, *, also: Collection[Beside] = ()) -> Path:
    """Write the page of a day: its shifts added up, held against the days before it.

    Args:
        folder: the plant folder.
        day: a production date, such as `2026-09-14`.
        also: `pdf`, `interactive`: written beside the page.

    Returns:
        The page, `2026-09-14.html` in the folder `reports`.

    Raises:
        UsageError: the text names no day, or one without a shift.
        StoreError: nothing has been loaded yet.
        ReportError: the page cannot be drawn or written.
    """
    return _report_period(folder, named_day(day), also=also)


def report_week(folder: PlantFolder, week: str, *, also: Collection[Beside] = ()) -> Path:
    """Write the page of a week, Monday to Sunday: its shifts added up, held against the weeks before it.

    Args:
        folder: the plant folder.
        week: as ISO 8601 writes it, such as `2026-W38`.
        also: `pdf`, `interactive`: written beside the page.

    Returns:
        The page, `2026-W38.html` in the folder `reports`.

    Raises:
        UsageError: the text names no week, or one without a shift.
        StoreError: nothing has been loaded yet.
        ReportError: the page cannot be drawn or written.
    """
    return _report_period(folder, named_week(week), also=also)


def _report_period(folder: PlantFolder, period: Period, *, also: Collection[Beside]) -> Path:
    settings = read_settings(folder.toml)
    report = settings.report
    with open_copy(folder) as copy:
        facts = period_facts(copy, period, target=report.target, usual_shifts=report.usual_shifts)
    return _written(folder, settings, facts, also=also)


def _written(
    folder: PlantFolder, settings: Settings, facts: ShiftFacts, *, also: Collection[Beside]
) -> Path:
    report = settings.report
    return write_page(
        facts,
        folder.reports,
        paper=report.paper,
        form=Form(report.dates, report.decimal),
        also=also,
    )


def keep_answers(folder: PlantFolder, facts: ShiftFacts, *, wait_seconds: float = 60) -> ShiftFacts:
    """Write what was computed for a shift into the table `answer`, where it differs from what is there.

    Args:
        folder: the plant folder.
        facts: the shift's facts.
        wait_seconds: how long to wait for another process that writes.

    Returns:
        The same facts; where the answers could not be written, with the reason in `unwritten`. The
        page is made all the same.
    """
    header = facts.header
    try:
        write_answers(
            folder,
            header.production_date,
            header.shift,
            shift_answers(facts),
            questions=QUESTIONS,
            wait_seconds=wait_seconds,
        )
    except StoreError as error:
        return replace(facts, unwritten=error.what)
    return facts


def _last_shift(copy: Reader) -> tuple[date, str]:
    ended = last_shift(copy)
    if ended is None:
        raise UsageError(
            "no shift has ended yet by the data received",
            hint="Load files with eol ingest, or name a shift with --shift DATE/SHIFT.",
        )
    return ended
