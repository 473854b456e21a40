"""Reports of earlier shifts that came late, or that somebody has not got: the next page tells them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from eol.facts.reader import Reader, rows

GRACE = 1_800
"""Seconds after a shift's end when its report is due, where a plant says nothing."""

LATE = timedelta(hours=1)
"""How long after it is due a report is called late."""


@dataclass(frozen=True, slots=True)
class LateReport:
    """One shift's report.

    Attributes:
        hours: how long after it was due the last recipient had it; None where nobody has it late.
        waiting: recipients who have not got it yet.
        refused: recipients whom the relay refused.
    """

    production_date: date
    shift: str
    hours: float | None
    waiting: int
    refused: int


def late_reports(
    reader: Reader, *, production_date: date, shift: str | None, grace: int = GRACE
) -> tuple[LateReport, ...]:
    """Return the late reports that the page of a shift tells of, the oldest first.

    Args:
        reader: the published copy of the store.
        production_date: the day of the shift that the page is of.
        shift: its name; between shifts nothing is told.
        grace: seconds after a shift's end when its report is due.
    """
    if shift is None:
        return ()
    found = reader.run(
        "page",
        "late_reports",
        production_date=production_date,
        shift=shift,
        due_seconds=grace + int(LATE.total_seconds()),
    )
    return tuple(
        LateReport(
            row["production_date"],
            row["shift"],
            None if row["seconds"] is None else (row["seconds"] - grace) / 3600,
            row["waiting"],
            row["refused"],
        )
        for row in rows(found)
    )
