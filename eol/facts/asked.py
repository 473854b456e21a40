"""One shift that is asked about: its window, the data clock, and the questions of `queries/status`."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from eol.facts.reader import Reader, Row, rows


@dataclass(frozen=True, slots=True)
class AskedShift:
    """A shift of the calendar; all times are aware, in the plant's zone.

    `settles_at` is its end + settle_hours (rule 11). `data_clock` is the newest run end or event
    time received, null in an empty store.
    """

    production_date: date
    shift: str
    crew: str | None
    cancelled: bool
    starts_at: datetime
    ends_at: datetime
    settles_at: datetime
    data_clock: datetime | None

    @property
    def name(self) -> str:
        """The shift as commands name it, `2026-09-08/day`."""
        return f"{self.production_date}/{self.shift}"

    @property
    def running(self) -> bool:
        """True while the data have not reached its end."""
        return self.data_clock is None or self.data_clock < self.ends_at


@dataclass(frozen=True, slots=True)
class Question:
    """Asks the files of `queries/status` of one shift."""

    reader: Reader
    asked: AskedShift
    zone: ZoneInfo

    def rows(self, name: str, **more: Any) -> list[Row]:
        """Return the rows of one file; every time in them is in the plant's zone."""
        frame = self.reader.run(
            "status",
            name,
            production_date=self.asked.production_date,
            shift=self.asked.shift,
            starts_at=self.asked.starts_at,
            ends_at=self.asked.ends_at,
            **more,
        )
        return [local(row, self.zone) for row in rows(frame)]


def ask_of(reader: Reader, production_date: date, shift: str) -> Question | None:
    """Return the questions of one shift; None where the calendar has no such shift."""
    found = rows(reader.run("status", "shift", production_date=production_date, shift=shift))
    if not found:
        return None
    zone = ZoneInfo(found[0].pop("timezone"))
    return Question(reader, AskedShift(**local(found[0], zone)), zone)


def local(row: Row, zone: ZoneInfo) -> Row:
    """Return a row with its times in a zone."""
    return {
        name: value.astimezone(zone) if isinstance(value, datetime) else value
        for name, value in row.items()
    }
