"""Which shift the page is of, and whether its data are all in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from eol.facts.reader import Reader, rows

Kind = Literal["shift", "day", "week"]
"""What a page is of."""


@dataclass(frozen=True, slots=True)
class Station:
    """A station that ran in the shift and when it was last heard from (plant-local)."""

    station: str
    test: str
    last_at: datetime | None
    heard_after: bool


@dataclass(frozen=True, slots=True)
class Header:
    """One shift of one plant, or a day or week; all times plant-local, null where the calendar has none.

    `data_clock` is the newest run end or event time received, never the wall clock.
    `settled` is rule 11's; `stations` are those that ran in the shift. Of a day or week
    `production_date` is the first day, `last_date` the last, and `shift` is null.
    """

    plant: str
    production_date: date
    shift: str | None
    crew: str | None
    starts_at: datetime | None
    ends_at: datetime | None
    cancelled: bool
    data_clock: datetime | None
    settled: bool
    stations: tuple[Station, ...]
    kind: Kind = "shift"
    last_date: date | None = None

    @property
    def running(self) -> bool:
        """True while the data clock has not reached the shift's end."""
        return bool(self.data_clock and self.ends_at and self.data_clock < self.ends_at)

    @property
    def silent(self) -> tuple[Station, ...]:
        """The stations not heard from since the shift's end."""
        return tuple(station for station in self.stations if not station.heard_after)

    @property
    def complete(self) -> bool:
        """True when every station that ran has sent something newer than the shift's end."""
        return bool(self.stations) and not self.silent


def header_facts(
    reader: Reader, *, production_date: date, shift: str | None, settled: bool
) -> Header:
    """Return the shift's window, the data clock and the stations heard from."""
    keys = {"production_date": production_date, "shift": shift}
    plant = rows(reader.run("page", "plant"))[0]
    window = next(iter(rows(reader.run("page", "window", **keys))), {})
    stations = rows(reader.run("page", "stations", **keys))
    return Header(
        plant=plant["name"] or "",
        production_date=production_date,
        shift=shift,
        crew=window.get("crew"),
        starts_at=window.get("starts_at"),
        ends_at=window.get("ends_at"),
        cancelled=bool(window.get("cancelled")),
        data_clock=plant["data_clock"],
        settled=settled,
        stations=tuple(
            Station(row["station"], row["test"], row["last_at"], bool(row["heard_after"]))
            for row in stations
        ),
    )
