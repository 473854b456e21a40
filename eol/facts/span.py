"""The stretch of time that a shift looks back over: the shifts of the calendar that end with it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from eol.facts.ftt import Window
from eol.facts.reader import Reader, rows


@dataclass(frozen=True, slots=True)
class CalendarShift:
    """A shift of the calendar; times UTC, the end not in."""

    window: Window
    starts_at: datetime
    ends_at: datetime


@dataclass(frozen=True, slots=True)
class Span:
    """Shifts of the calendar, oldest first; the last one is that which is told of."""

    shifts: tuple[CalendarShift, ...]

    @property
    def until(self) -> datetime:
        """The end of the last shift."""
        return self.shifts[-1].ends_at

    def last(self, n: int) -> Span:
        """Return the last n shifts, or all where there are fewer."""
        return Span(self.shifts[-n:])

    @property
    def bounds(self) -> dict[str, date]:
        """The parameters that queries over a span share: its ends (UTC) and its first production date."""
        first = self.shifts[0]
        return {"from_at": first.starts_at, "until": self.until, "first_date": first.window[0]}


def calendar(reader: Reader) -> tuple[CalendarShift, ...]:
    """Return the shifts that were not cancelled, oldest first."""
    return tuple(
        CalendarShift((row["production_date"], row["shift"]), row["starts_at"], row["ends_at"])
        for row in rows(reader.run("action", "shift"))
    )


def span_up_to(
    shifts: Sequence[CalendarShift], *, last_date: date, shift: str | None
) -> Span | None:
    """Return all shifts up to one.

    Args:
        shifts: the calendar.
        last_date: the production date.
        shift: the shift; the last one of the date where None.

    Returns:
        The span; None where the calendar has no such shift and none before it.
    """
    kept = [one for one in shifts if one.window[0] <= last_date]
    if shift is not None:
        place = next((at for at, s in enumerate(kept) if s.window == (last_date, shift)), None)
        kept = kept if place is None else kept[: place + 1]
    return Span(tuple(kept)) if kept else None
