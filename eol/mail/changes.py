"""Whether a late file has moved a figure that a report stated, and the words that say so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby

from eol.facts.reader import Reader, Row, rows
from eol.report.formats import percent, plain, sentence
from eol.words import counted

TESTS = ("ftt_by_shift.ftt", "dphu_by_shift.dphu")
"""Figures of runs that ended in the shift: only late files, corrections or declarations move these.

Figures of the line move as its units go on through their tests; that is no news of its own.
"""

_NAMES = {
    "ftt_by_shift.ftt": "FTT",
    "dphu_by_shift.dphu": "defects per 100 units",
    "line_by_shift.ftt": "line FTT",
    "line_by_shift.rty": "RTY",
    "line_by_shift.dphu": "line defects per 100 units",
}


@dataclass(frozen=True, slots=True)
class Change:
    """A figure as it was sent and as it is now; null where there was or is none."""

    figure: str
    title: str
    sent_n: int | None
    sent_value: float | None
    n: int | None
    value: float | None

    @property
    def shows(self) -> bool:
        """True where it is another one as printed."""
        return _printed(self.figure, self.sent_value) != _printed(self.figure, self.value)

    @property
    def words(self) -> str:
        """What moved, from what to what."""
        was, now = _printed(self.figure, self.sent_value), _printed(self.figure, self.value)
        return f"{sentence(self._name)} was {was} of {self.sent_n or 0}, now {now} of {self.n or 0}"

    @property
    def news(self) -> str:
        """The same for a subject."""
        was, now = _printed(self.figure, self.sent_value), _printed(self.figure, self.value)
        return f"{self._name} was {was}, now {now}"

    @property
    def _name(self) -> str:
        title = self.title[:1].lower() + self.title[1:]
        return f"{title} {_NAMES[self.figure]}".strip()


@dataclass(frozen=True, slots=True)
class Moved:
    """A shift whose report has to be told again, with what moved, figures of tests first."""

    production_date: date
    shift: str | None
    message_id: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class Report:
    """The latest report of a shift that left: how many of it there were, and when it was made."""

    production_date: date
    shift: str | None
    letters: int
    message_id: str
    made_at: datetime


def reports_since(reader: Reader, since: date) -> list[Report]:
    """Return the latest report of each shift from a production date on."""
    return [Report(**row) for row in rows(reader.run("mail", "reports", since=since))]


def moved_since(reader: Reader, since: date) -> list[Moved]:
    """Return the shifts from a production date on of which a test's figure moved, as printed."""
    found = rows(reader.run("mail", "moved", since=since))
    shifts = groupby(
        found, key=lambda row: (row["production_date"], row["shift"], row["message_id"])
    )
    moved = [Moved(*named, _changes(list(of_shift))) for named, of_shift in shifts]
    return [one for one in moved if any(change.figure in TESTS for change in one.changes)]


def late_runs(reader: Reader, report: Report) -> int:
    """Return how many runs of a shift came by files loaded after its report was made."""
    found = reader.run(
        "mail",
        "late_runs",
        production_date=report.production_date,
        shift=report.shift,
        made_at=report.made_at,
    )
    return int(found.item())


def reason_words(late: int) -> str:
    """Return why the figures moved."""
    if late:
        return counted(late, "late run")
    return "no late run: a late reading, repair, correction or declaration"


def _changes(found: Sequence[Row]) -> tuple[Change, ...]:
    every = [
        Change(
            row["figure"],
            row["title"] or "",
            row["sent_n"],
            row["sent_value"],
            row["n"],
            row["value"],
        )
        for row in found
    ]
    shown = [change for change in every if change.shows]
    return tuple(sorted(shown, key=lambda change: change.figure not in TESTS))


def _printed(figure: str, value: float | None) -> str:
    if value is None:
        return "none"
    return percent(value) if figure.endswith((".ftt", ".rty")) else plain(value)
