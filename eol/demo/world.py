"""What the plant holds while its record is made: units, hidden faults, and all that was recorded."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np

from eol.demo.catalogue import CODE_OF, CODES
from eol.demo.units import Unit


@dataclass(slots=True)
class Fault:
    """A fault that a unit has, seen by a test or not.

    Attributes:
        level: how plain it is, 0 to 1: a bench that sees a share s finds it where level < s.
    """

    code: str
    zone: str
    step: str
    level: float


@dataclass(slots=True)
class Run:
    """A run as it truly happened; seconds as in eol.demo.plan.

    Attributes:
        void: why it proves nothing, None where it counts; the generator's own knowledge.
        conditions: pressure in kPa, duration in s and flow in l/min, of water runs only.
        sent_in: the file that brings it where that is not the week's own.
    """

    unit: Unit
    test: str
    station: str
    bay: str | None
    operator: str | None
    started: int
    ended: int
    result: str
    purpose: str
    findings: tuple[Fault, ...] = ()
    last_step: str | None = None
    void: str | None = None
    conditions: tuple[float, float, float] | None = None
    run_ref: str | None = None
    vin_sent: str | None = None
    sent_in: str | None = None

    @property
    def vin(self) -> str:
        """The VIN that the bench wrote down."""
        return self.vin_sent or self.unit.vin


@dataclass(slots=True)
class Repair:
    """One repair; `ended` is None while it is open."""

    vin: str
    test: str | None
    code: str | None
    zone: str | None
    started: int
    ended: int | None
    action: str
    kind: str
    owner_area: str
    place: str
    part: str | None = None
    lot: str | None = None


@dataclass(slots=True)
class Event:
    """Where a unit is, or what was decided of it."""

    vin: str
    at: int
    kind: str
    place: str | None = None
    reference: str | None = None
    note: str | None = None
    entered_by: str | None = None


class Plan(StrEnum):
    """What the script has in store for a unit at a test."""

    ABORT = "aborted with water found"
    SCRAP = "scrapped after its fail"
    HOLD = "held after its run"
    BYPASS_RELEASED = "bypassed, then released"
    BYPASS_RETESTED = "bypassed, tested later"
    BYPASS_WAITS = "bypassed, still waiting"
    BYPASS_SHIPPED = "bypassed and shipped"


@dataclass(slots=True)
class World:
    """The plant: its units, their hidden faults, the script of single units, and the record so far.

    Attributes:
        faults: hidden faults by unit number.
        plans: what the script has in store, by unit number and test.
        misread: the VIN written down in place of the right one, by unit number and test.
        false_level: by unit number, how easily a bad bench calls a fault that is none.
    """

    rng: np.random.Generator
    units: list[Unit]
    trials: list[Unit] = field(default_factory=list)
    references: list[Unit] = field(default_factory=list)
    faults: dict[int, list[Fault]] = field(default_factory=lambda: defaultdict(list))
    plans: dict[tuple[int, str], Plan] = field(default_factory=dict)
    misread: dict[tuple[int, str], str] = field(default_factory=dict)
    false_level: list[float] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    repairs: list[Repair] = field(default_factory=list)
    events: list[Event] = field(default_factory=list)

    def plant(
        self,
        code: str,
        eligible: Iterable[Unit],
        *,
        share: float | None = None,
        count: int | None = None,
        zone: str | None = None,
        step: str | None = None,
        level: float | None = None,
    ) -> list[Unit]:
        """Give a code to a share or a number of the eligible units, drawn without return.

        Args:
            code: a code of the catalogue.
            eligible: whom it can meet.
            share: the share of them that it meets, None to go by `count`.
            count: how many of them it meets.
            zone: where; None draws one of the code's places.
            step: which step shows it; None draws one of the code's steps.
            level: how plain it is; None draws it even between 0 and 1.

        Returns:
            The units met.
        """
        pool = list(eligible)
        number = round(len(pool) * share) if share is not None else count or 0
        chosen = sorted(self.rng.choice(len(pool), number, replace=False).tolist())
        entry = CODE_OF[code]
        for place in chosen:
            fault = Fault(
                code,
                zone or _draw(self.rng, entry.places),
                step or entry.steps[int(self.rng.integers(len(entry.steps)))],
                float(self.rng.random()) if level is None else level,
            )
            self.faults[pool[place].number].append(fault)
        return [pool[place] for place in chosen]

    def plant_usual(self) -> None:
        """Plant the codes that no story plants, evenly over the whole record."""
        for code in CODES:
            if code.per_hundred:
                self.plant(code.code, self.units, share=code.per_hundred / 100)

    def clear(self, code: str, units: Iterable[Unit], *, zone: str | None = None) -> None:
        """Take a code, in one zone or in all, from some units."""
        for unit in units:
            kept = [
                fault
                for fault in self.faults.get(unit.number, [])
                if fault.code != code or zone not in (None, fault.zone)
            ]
            if unit.number in self.faults:
                self.faults[unit.number] = kept

    def faults_of(self, unit: Unit, test: str) -> list[Fault]:
        """Return the hidden faults of a unit that a test can find."""
        here = self.faults.get(unit.number, ())
        return [fault for fault in here if CODE_OF[fault.code].test == test]

    def mend(self, unit: Unit, mended: Sequence[Fault]) -> None:
        """Take mended faults from a unit."""
        gone = {id(fault) for fault in mended}
        kept = [fault for fault in self.faults[unit.number] if id(fault) not in gone]
        self.faults[unit.number] = kept


def _draw(rng: np.random.Generator, weights: dict[str, float]) -> str:
    total = sum(weights.values())
    return str(rng.choice(list(weights), p=[weight / total for weight in weights.values()]))
