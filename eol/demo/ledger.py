"""The generator's own count of what happens, kept run by run as it happens.

It knows which run proves nothing because it made it so; the counting rules' code is not asked.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field

from eol.demo.plan import shift_at
from eol.demo.units import Unit
from eol.demo.world import Fault, Run


@dataclass(slots=True)
class Tally:
    """The figures of one test in one shift, of production units alone."""

    presented: set[str] = field(default_factory=set)
    tested: int = 0
    passed_first: int = 0
    defects: int = 0
    void_runs: int = 0
    aborted_runs: int = 0


@dataclass(frozen=True, slots=True)
class Defect:
    """A finding that counts, with the run that found it."""

    fault: Fault
    run: Run


@dataclass(slots=True)
class Standing:
    """What a unit stands at in a test: its first and latest counted run, and a later void one."""

    first: Run | None = None
    latest: Run | None = None
    void_since: Run | None = None

    @property
    def clear(self) -> bool:
        """Whether the latest counted run is a pass."""
        return self.latest is not None and self.latest.result == "pass"


@dataclass(slots=True)
class Ledger:
    """All that was counted, by shift number and test, and by VIN as sent and test."""

    tallies: dict[tuple[int, str], Tally] = field(default_factory=lambda: defaultdict(Tally))
    standings: dict[tuple[str, str], Standing] = field(
        default_factory=lambda: defaultdict(Standing)
    )
    defects: list[Defect] = field(default_factory=list)

    def book(self, run: Run) -> None:
        """Count one run; the runs of a unit in a test must come in the order of their ends.

        Raises:
            ValueError: the run ends between shifts, where none may.
        """
        if run.unit.kind != "production":
            return
        shift = shift_at(run.ended)
        if shift is None:
            raise ValueError(f"a run of {run.vin} ends between shifts")
        tally = self.tallies[shift.number, run.test]
        tally.presented.add(run.vin)
        standing = self.standings[run.vin, run.test]
        if run.void is None:
            self._count(run, tally, standing)
        elif run.void == "aborted":
            tally.aborted_runs += 1
        else:
            tally.void_runs += 1
            standing.void_since = run

    def _count(self, run: Run, tally: Tally, standing: Standing) -> None:
        if standing.first is None:
            standing.first = run
            tally.tested += 1
            tally.passed_first += run.result == "pass"
            places = {(fault.code, fault.zone): fault for fault in run.findings}
            tally.defects += len(places)
            self.defects.extend(Defect(fault, run) for fault in places.values())
        standing.latest, standing.void_since = run, None

    def defects_of(self, code: str) -> Iterator[Defect]:
        """Yield the defects of one code, in the order of tests and time."""
        return (defect for defect in self.defects if defect.fault.code == code)

    def standing(self, unit: Unit, test: str) -> Standing:
        """Return what a unit stands at; nothing at all where it was never run."""
        return self.standings.get((unit.vin, test), Standing())
