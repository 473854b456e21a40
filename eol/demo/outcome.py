"""How the record ends for each unit: its line state, and whether it escaped without proof."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from eol.demo.catalogue import TESTS
from eol.demo.ledger import Ledger, Standing
from eol.demo.plan import SHIFTS
from eol.demo.record import Record
from eol.demo.units import Unit
from eol.demo.world import Plan, Run

# A unit bypassed and later passed went through: rule 11 asks for its counted attempts first.
_FAILED_PLANS = (
    Plan.SCRAP,
    Plan.BYPASS_RELEASED,
    Plan.BYPASS_WAITS,
    Plan.BYPASS_SHIPPED,
)


@dataclass(frozen=True, slots=True)
class Escape:
    """A unit signed off without proof of a test; `shipped` where it has left the plant too."""

    vin: str
    test: str
    reason: str
    shipped: bool


def first_runs(ledger: Ledger, test: str) -> list[Run]:
    """Return the first counted run of every production unit in a test, in the order they came."""
    standings = ledger.standings.items()
    return [one.first for (_, name), one in standings if name == test and one.first is not None]


def escapes(record: Record) -> Iterator[Escape]:
    """Yield the units past their sign-off that are not clear in a test and not released."""
    for number in sorted(record.left.signed_off):
        unit = record.world.units[number]
        for test in TESTS:
            reason = _reason(record, unit, test.name)
            if reason is not None:
                yield Escape(unit.vin, test.name, reason, number in record.left.shipped)


def line_states(record: Record) -> list[dict[str, int]]:
    """Return how many units of each shift's cohort went through, failed one test, or are undecided."""
    states = [{"built": 0, "went_through": 0, "failed_one": 0, "undecided": 0} for _ in SHIFTS]
    for unit in record.world.units:
        states[unit.shift.number]["built"] += 1
        states[unit.shift.number][_line_state(record, unit)] += 1
    return states


def _line_state(record: Record, unit: Unit) -> str:
    firsts = [record.ledger.standing(unit, test.name).first for test in TESTS]
    fated = any(record.world.plans.get((unit.number, test.name)) in _FAILED_PLANS for test in TESTS)
    broken = record.windscreens.holds(unit)
    if fated or broken or any(run is not None and run.result != "pass" for run in firsts):
        return "failed_one"
    return "undecided" if None in firsts else "went_through"


def _reason(record: Record, unit: Unit, test: str) -> str | None:
    """The first reason that applies, None for a unit that is clear or released."""
    standing = record.ledger.standing(unit, test)
    if test == "water" and unit is record.windscreens.not_tested_again:
        return "disturbed"
    released = record.world.plans.get((unit.number, test)) is Plan.BYPASS_RELEASED
    if standing.clear or released:
        return None
    return _lack(standing)


def _lack(standing: Standing) -> str:
    if standing.latest is not None:
        return "failed"
    if standing.void_since is None:
        return "no_record"
    return "bypassed" if standing.void_since.void == "bypass" else "void"
