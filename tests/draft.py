"""A random plant on its way: the dice, the clock that gives each second once, the rows so far."""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from second_opinion import File

Row = dict[str, Any]


@dataclass
class Draft:
    """A plant being made: its dice, its settings, and the rows of each feed so far."""

    dice: random.Random
    first_day: date
    zone: ZoneInfo
    settings: Row
    local: bool
    parted: bool
    referenced: bool
    runs: dict[str, list[list[Row]]] = field(default_factory=dict)
    parts: dict[str, list[Row]] = field(default_factory=dict)
    feeds: dict[str, list[Row]] = field(default_factory=dict)
    runs_named: int = 0
    taken: set[datetime] = field(default_factory=set)
    files: list[File] = field(default_factory=list)

    def chance(self, share: float) -> bool:
        """True in this share of the throws."""
        return self.dice.random() < share

    def pick(self, choices: Any) -> Any:
        """One of some."""
        return self.dice.choice(list(choices))

    def free(self, wanted: datetime) -> datetime:
        """The first second from a time on at which nothing else happens."""
        while wanted in self.taken:
            wanted += timedelta(seconds=1)
        self.taken.add(wanted)
        return wanted

    def moment(self, hours: float = 48) -> datetime:
        """A free second of the plant's days."""
        start = datetime.combine(self.first_day, time(4), tzinfo=self.zone).astimezone(UTC)
        return self.free(start + timedelta(seconds=self.dice.randrange(int(3600 * hours))))

    def later(self, after: datetime, low: int, high: int) -> datetime:
        """A free second some minutes after a time."""
        return self.free(after + timedelta(seconds=self.dice.randrange(60 * low, 60 * high)))

    def reference(self, station: str) -> str | None:
        """A bench's own name of a run, where this plant's benches give them."""
        if not self.referenced:
            return None
        self.runs_named += 1
        return f"{station}-{self.runs_named:05d}"

    def edge(self) -> datetime:
        """A shift's edge, or a millisecond before it."""
        _, starts, ends = self.pick(
            [(s["name"], s["starts"], s["ends"]) for s in self.settings["shift"]]
        )
        day = self.first_day + timedelta(days=self.dice.randrange(2))
        at = datetime.combine(day, time.fromisoformat(self.pick((starts, ends))), tzinfo=self.zone)
        return at.astimezone(UTC) - timedelta(milliseconds=self.pick((0, 1)))


def vin_of(number: int) -> str:
    """An invented VIN: no maker's begins with 0ZZ."""
    return f"0ZZKAB12C{number:08d}"
