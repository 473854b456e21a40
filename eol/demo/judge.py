"""One run: what the bench finds and writes down, and what the generator knows of it."""

from __future__ import annotations

from eol.demo.catalogue import TESTS, Place, Test
from eol.demo.plan import MINUTE, SHIFTS
from eol.demo.senses import (
    BLIND_BAY,
    REFERENCE_NEEDS,
    SEES,
    falsely_called,
    filter_state,
    sees,
    water_conditions,
)
from eol.demo.units import Unit
from eol.demo.world import Fault, Plan, Run, World

BENCH_COMM_SHARE = 0.003
ABORTED_SHARE = 0.0025
REFERENCE_LEAK = ("WL-SEAM", "RR-QTR", "rear")
"""Code, zone and step of the leak that every reference vehicle has."""

_BYPASSES = (
    Plan.BYPASS_RELEASED,
    Plan.BYPASS_RETESTED,
    Plan.BYPASS_WAITS,
    Plan.BYPASS_SHIPPED,
)
_WATER = next(test for test in TESTS if test.name == "water")


def judge(world: World, unit: Unit, test: Test, place: Place, start: int, *, tries: int) -> Run:
    """Run a test once.

    Args:
        world: the plant; its random source is drawn from.
        unit: the vehicle.
        test: the test.
        place: where it runs.
        start: the second at which it starts.
        tries: how often this unit was run in this test before.

    Returns:
        The run, not yet recorded.
    """
    length = test.length + int(world.rng.integers(-8, 9))
    run = _blank(unit, test, place, start, start + length, tries)
    if place.bay is not None:
        run.conditions = water_conditions(world.rng, place.bay, start)
    run.vin_sent = None if tries else world.misread.get((unit.number, test.name))
    chance = float(world.rng.random())
    if tries == 0 and _scripted(world, run, test, chance):
        return run
    found = _found(world, unit, test, place, start)
    run.findings = found
    run.result = "fail" if found else "pass"
    if run.result == "pass" and filter_state(place.bay, start) == "blind":
        run.void = "weak"
    return run


def judge_reference(world: World, unit: Unit, bay: str, number: int) -> Run:
    """Run the reference vehicle of a water bay at the start of a shift."""
    start = SHIFTS[number].starts + int(world.rng.integers(5, 25))
    run = _blank(unit, _WATER, Place("W", bay), start, start + 4 * MINUTE, 0)
    run.purpose = "audit"
    run.conditions = water_conditions(world.rng, bay, start)
    state = filter_state(bay, start)
    if SEES[state] >= REFERENCE_NEEDS:
        run.findings = (Fault(*REFERENCE_LEAK, level=0.0),)
        run.result = "fail"
    elif state == "blind":
        run.void = "weak"
    return run


def _blank(unit: Unit, test: Test, place: Place, start: int, end: int, tries: int) -> Run:
    return Run(
        unit=unit,
        test=test.name,
        station=place.station,
        bay=place.bay,
        operator=place.operator,
        started=start,
        ended=end,
        result="pass",
        purpose="retest" if tries else "normal",
    )


def _scripted(world: World, run: Run, test: Test, chance: float) -> bool:
    """Whether a first run ends other than by what the bench finds; if so it is filled in."""
    plan = world.plans.get((run.unit.number, test.name))
    if plan in _BYPASSES:
        run.result, run.void = "bypass", "bypass"
        run.ended = run.started + MINUTE
        return True
    if plan is Plan.ABORT:
        return _abort_wet(world, run, test)
    if plan is not None or run.vin_sent or run.unit.kind != "production":
        return False
    if chance < ABORTED_SHARE:
        run.result, run.void = "aborted", "aborted"
        run.ended = run.started + int(world.rng.integers(30, 150))
        return True
    if test.name == "electrical" and chance > 1 - BENCH_COMM_SHARE:
        run.result, run.void = "fail", "equipment"
        run.findings = (Fault("BENCH_COMM", "", "wake-up", 0.0),)
        return True
    return False


def _abort_wet(world: World, run: Run, test: Test) -> bool:
    """The bench stops as soon as water is found: the run ends after the step before."""
    found = tuple(world.faults_of(run.unit, test.name))[:1]
    run.result, run.findings = "aborted", found
    run.ended = run.started + int(world.rng.integers(90, 200))
    place = test.steps.index(found[0].step)
    run.last_step = test.steps[place - 1] if place else None
    return True


def _found(world: World, unit: Unit, test: Test, place: Place, start: int) -> tuple[Fault, ...]:
    found = [fault for fault in world.faults_of(unit, test.name) if sees(fault, place, start)]
    if test.name == "electrical" and falsely_called(world, unit, place, start):
        found.append(Fault("EL-CHARGE", "CHARGE-PORT", "charging", -1.0))
    return tuple(found)


def is_false(fault: Fault) -> bool:
    """Say whether a finding is one that a bad bench made up."""
    return fault.level < 0


def is_blind_pass(run: Run) -> bool:
    """Say whether a run is a pass that the clogged bay made void."""
    return run.void == "weak" and run.bay == BLIND_BAY and run.unit.kind == "production"
