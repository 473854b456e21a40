"""Units by VIN: what waits, what escaped, what has a safety-related finding, what has a code."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from eol.facts.reader import Row, whole

A_DAY = 24.0

NO_HANDLING = "Safety-related; the catalogue has no handling words: ask before any work on it."
"""Printed beside a unit with such a finding where the catalogue is silent."""


@dataclass(frozen=True, slots=True)
class OpenUnit:
    """A unit that waits in a test, at the data clock; `hours` since it began to wait."""

    vin: str
    test: str
    title: str
    status: str
    waiting_for: str
    hours: float | None
    loops: int
    place: str | None
    codes: str | None
    handling: str | None

    @property
    def over_a_day(self) -> bool:
        """True when it waits for more than 24 hours."""
        return self.hours is not None and self.hours > A_DAY


@dataclass(frozen=True, slots=True)
class Escape:
    """A unit past an event that asks for proof, not clear in a test (rule 14); times local."""

    vin: str
    test: str
    title: str
    reason: str
    event: str
    event_at: datetime | None
    in_shift: bool


@dataclass(frozen=True, slots=True)
class SafetyUnit:
    """A unit with a safety-related finding and no release since; times plant-local."""

    vin: str
    test: str
    title: str
    code: str
    code_title: str
    zone: str | None
    found_at: datetime | None
    in_shift: bool
    status: str
    place: str | None
    handling: str


@dataclass(frozen=True, slots=True)
class UnitWithCode:
    """One defect of the shift with the unit it is on; times plant-local."""

    test: str
    code: str
    vin: str
    zone: str | None
    station: str | None
    bay: str | None
    found_at: datetime | None
    status: str | None
    place: str | None
    handling: str | None


def open_units(found: Sequence[Row], titles: Mapping[str, str]) -> tuple[OpenUnit, ...]:
    """Return the rows of `open_unit`, the longest waiting first."""
    units = [
        OpenUnit(
            vin=row["vin"],
            test=row["test"],
            title=titles.get(row["test"], row["test"]),
            status=row["status"],
            waiting_for=row["waiting_for"] or "decision",
            hours=row["hours"],
            loops=whole(row["loops"]),
            place=row["place"],
            codes=row["codes"],
            handling=row["handling"],
        )
        for row in found
    ]
    return tuple(sorted(units, key=lambda unit: (-(unit.hours or 0.0), unit.vin, unit.test)))


def escapes(found: Sequence[Row], titles: Mapping[str, str]) -> tuple[Escape, ...]:
    """Return the escapes, those of the shift first, then the newest."""
    units = [
        Escape(
            vin=row["vin"],
            test=row["test"],
            title=titles.get(row["test"], row["test"]),
            reason=row["reason"],
            event=row["event"],
            event_at=row["event_at"],
            in_shift=bool(row["in_shift"]),
        )
        for row in found
    ]
    units.sort(key=lambda unit: (unit.vin, unit.test))
    units.sort(key=lambda unit: unit.event_at or datetime.min, reverse=True)
    return tuple(sorted(units, key=lambda unit: not unit.in_shift))


def safety_units(found: Sequence[Row], titles: Mapping[str, str]) -> tuple[SafetyUnit, ...]:
    """Return the units with a safety-related finding, those of the shift first."""
    units = [
        SafetyUnit(
            vin=row["vin"],
            test=row["test"],
            title=titles.get(row["test"], row["test"]),
            code=row["code"],
            code_title=row["code_title"] or "",
            zone=row["zone"],
            found_at=row["found_at"],
            in_shift=bool(row["in_shift"]),
            status=row["status"] or "",
            place=row["place"],
            handling=row["handling"] or NO_HANDLING,
        )
        for row in found
    ]
    units.sort(key=lambda unit: (unit.vin, unit.code, unit.zone or ""))
    units.sort(key=lambda unit: unit.found_at or datetime.min, reverse=True)
    return tuple(sorted(units, key=lambda unit: not unit.in_shift))


def units_with_code(found: Sequence[Row]) -> tuple[UnitWithCode, ...]:
    """Return the shift's defects with their units, by test, code and time."""
    units = [
        UnitWithCode(
            test=row["test"],
            code=row["code"],
            vin=row["vin"],
            zone=row["zone"],
            station=row["station"],
            bay=row["bay"],
            found_at=row["found_at"],
            status=row["status"],
            place=row["place"],
            handling=row["handling"],
        )
        for row in found
    ]
    return tuple(
        sorted(
            units,
            key=lambda u: (u.test, u.code, u.found_at or datetime.min, u.vin, u.zone or ""),
        )
    )
