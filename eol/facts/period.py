"""A day or a week as one page: its shifts added up, held against the days or weeks before it.

The facts are read as those of a shift are, through a reader that adds the rows of shifts: every
figure stands on the same rules, and what compares shifts compares days or weeks.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cached_property
from typing import Literal

import polars as pl

from eol.errors import UsageError
from eol.facts.header import Kind
from eol.facts.period_rows import added, history_of
from eol.facts.reader import Reader
from eol.facts.shift import USUAL_SHIFTS, ShiftFacts, shift_facts

Shift = tuple[date, str | None]

LOOK_BACK = timedelta(days=200)
"""The days and weeks before the period that its limits are made of."""

_HISTORIES = {
    "ftt_history",
    "line_history",
    "code_history",
    "at_risk_history",
    "defect_places",
    "codes_before",
    "zone_history",
    "bay_history",
    "bay_codes",
}
"""Files of `queries/page` that give rows of many shifts up to a day."""


@dataclass(frozen=True, slots=True)
class Period:
    """A day or a week of production dates, both ends included."""

    kind: Literal["day", "week"]
    first: date
    last: date

    def begins(self) -> pl.Expr:
        """Return the first day of the period that a production date belongs to."""
        day = pl.col("production_date")
        return day.dt.truncate("1w") if self.kind == "week" else day


def named_day(text: str) -> Period:
    """Return the day that a text such as `2026-09-14` names.

    Raises:
        UsageError: it names none.
    """
    try:
        day = date.fromisoformat(text)
    except ValueError as error:
        raise UsageError(
            f"'{text}' names no day", hint="Write it as YYYY-MM-DD, such as 2026-09-14."
        ) from error
    return Period("day", day, day)


def named_week(text: str) -> Period:
    """Return the week that a text such as `2026-W38` names, Monday to Sunday (ISO 8601).

    Raises:
        UsageError: it names none.
    """
    year, _, week = text.partition("-W")
    try:
        first = date.fromisocalendar(int(year), int(week), 1)
    except ValueError as error:
        raise UsageError(
            f"'{text}' names no week", hint="Write it as YYYY-Www, such as 2026-W38."
        ) from error
    return Period("week", first, first + timedelta(days=6))


def period_facts(
    reader: Reader,
    period: Period,
    *,
    target: Mapping[str, float] | None = None,
    usual_shifts: int = USUAL_SHIFTS,
) -> ShiftFacts:
    """Read the facts of a day or a week.

    Args:
        reader: the published copy of the store.
        period: the day or week.
        target: the plant's targets by figure.
        usual_shifts: settled days or weeks before it that make its usual ranges, at most.

    Returns:
        The facts as of a shift; the header tells the kind of period, and its last day. What waits
        and what escaped is told as for the period's last shift.

    Raises:
        UsageError: no shift with a run, and none of the calendar, lies in the period.
    """
    added_up = PeriodReader(reader, period)
    if not added_up.shifts:
        raise UsageError(
            f"there is no shift in the {period.kind} from {period.first} to {period.last}",
            hint="Name another one, or load files with eol ingest.",
        )
    facts = shift_facts(
        added_up,
        production_date=period.first,
        shift=None,
        target=target,
        usual_shifts=usual_shifts,
        last_date=period.last,
    )
    kind: Kind = period.kind
    return replace(facts, header=replace(facts.header, kind=kind, last_date=period.last))


@dataclass(frozen=True)
class PeriodReader:
    """Reads a day or a week as a shift is read: named by its first day and no shift."""

    reader: Reader
    period: Period

    @cached_property
    def shifts(self) -> tuple[Shift, ...]:
        """The shifts of the period in their order, and what was tested between them."""
        names: set[Shift] = {(day, name) for day in self._days() for name in self._of_calendar(day)}
        ran = self.reader.run(
            "page",
            "ftt_history",
            production_date=self.period.last,
            shift=None,
            first_date=self.period.first,
        )
        starts = {(r["production_date"], r["shift"]): r["starts_at"] for r in ran.to_dicts()}
        names |= {key for key in starts if self.period.first <= key[0] <= self.period.last}
        order = {name: at for at, name in enumerate(self._order(names))}
        return tuple(sorted(names, key=lambda key: (key[0], order[key])))

    def run(self, folder: str, name: str, /, **values: object) -> pl.DataFrame:
        """Run one file of `queries/page` for the whole period."""
        if not {"production_date", "shift"} <= set(values):
            return self.reader.run(folder, name, **values)
        values |= {"production_date": self.period.last}
        if name == "usual_from":
            return pl.DataFrame({"first_date": [self.period.last - LOOK_BACK]})
        if name in _HISTORIES:
            return history_of(self.reader, folder, name, self.period.begins(), values)
        if name == "repair_minutes":
            return self.reader.run(folder, name, **values | self._key(self._last()))
        if name == "rejected_rows":
            values |= {"from_date": self.period.first}
            return self.reader.run(folder, "rejected_rows_of_days", **values)
        parts = [self.reader.run(folder, name, **values | self._key(key)) for key in self.shifts]
        return added(name, parts)

    def view(self, name: str, /, **equals: object) -> pl.DataFrame:
        """Return the rows of one view for the whole period."""
        if not {"production_date", "shift"} <= set(equals):
            return self.reader.view(name, **equals)
        if name == "pareto_window":
            # The 20 shifts that end with the last one of the period.
            return self.reader.view(name, **self._key(self._last()))
        return added(name, [self.reader.view(name, **self._key(key)) for key in self.shifts])

    def _days(self) -> Sequence[date]:
        length = (self.period.last - self.period.first).days + 1
        return [self.period.first + timedelta(days=at) for at in range(length)]

    def _of_calendar(self, day: date) -> list[str]:
        windows = self.reader.view("shift_window", production_date=day)
        return windows.filter(~pl.col("cancelled").fill_null(False))["shift"].to_list()

    def _order(self, names: set[Shift]) -> list[Shift]:
        """By when they start; what lies between shifts comes last in its day."""
        starts = {
            (day, row["shift"]): row["starts_at"]
            for day in {day for day, _ in names}
            for row in self.reader.view("shift_window", production_date=day).to_dicts()
        }
        last = max(starts.values(), default=None)
        return sorted(
            names, key=lambda key: (key not in starts, str(starts.get(key, last)), str(key))
        )

    def _last(self) -> Shift:
        named = [key for key in self.shifts if key[1] is not None]
        return named[-1] if named else self.shifts[-1]

    def _key(self, key: Shift) -> dict[str, object]:
        return {"production_date": key[0], "shift": key[1]}
