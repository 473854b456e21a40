"""The units' way through the tests: queues, runs, repairs and retests, in the order of time.

Each test is one queue served first come, first served; a unit that fails comes back to it after
repair. No run crosses a shift's end: what stands in the flow then is tested in the next shift.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from heapq import heapify, heappop, heappush

from eol.demo.catalogue import TESTS, Place, Test
from eol.demo.judge import judge, judge_reference
from eol.demo.ledger import Ledger
from eol.demo.plan import HOUR, MINUTE, first_start, shift_of, working_second
from eol.demo.rework import after_fail
from eol.demo.senses import BLIND_DAYS
from eol.demo.units import Unit
from eol.demo.world import Event, Plan, Run, World

BAYS_OPEN_AFTER = 5 * MINUTE
"""The water bays serve no unit before their reference check at a shift's start is through."""

OUT_OF_REACH = shift_of(BLIND_DAYS[0], "day").starts + 7 * HOUR + 30 * MINUTE
"""Void passes before this second had left the plant when the filter was changed."""

_RECALL_FROM = shift_of(BLIND_DAYS[1] + 1, "day")
_RECALL_EVERY = 5 * MINUTE
_LATER = 2 * HOUR


@dataclass(order=True, slots=True)
class Visit:
    """A unit that comes to a test."""

    arrives: int
    number: int
    tries: int = field(compare=False)
    unit: Unit = field(compare=False)
    avoids: str | None = field(compare=False, default=None)


@dataclass(slots=True)
class Queue:
    """One test with its places, and when each of them is free again."""

    test: Test
    free_at: list[int]
    visits: list[Visit]
    left: dict[int, int] = field(default_factory=dict)
    recalled: int = 0

    def leave(self, unit: Unit, second: int) -> None:
        """Let a unit go on to the next stage; only the first time counts."""
        self.left.setdefault(unit.number, second)


def run_tests(world: World, ledger: Ledger) -> dict[int, int]:
    """Send all production and trial units through all tests.

    Returns:
        By unit number, the second at which the unit had passed the last test, as the plant saw it.
    """
    units = [*world.units, *world.trials]
    gone = {unit.number: unit.line_off for unit in units if unit.line_off is not None}
    by_number = {unit.number: unit for unit in units}
    for test in TESTS:
        visits = [
            Visit(second + int(world.rng.integers(*test.transfer)), number, 0, by_number[number])
            for number, second in sorted(gone.items())
        ]
        gone = _serve(world, ledger, test, visits)
    return gone


def _serve(world: World, ledger: Ledger, test: Test, visits: list[Visit]) -> dict[int, int]:
    heapify(visits)
    queue = Queue(test, [0] * len(test.places), visits)
    while queue.visits:
        visit = heappop(queue.visits)
        taken = _take(world, queue, visit)
        if taken is None:
            continue
        place, start = taken
        run = judge(world, visit.unit, test, place, start, tries=visit.tries)
        world.runs.append(run)
        ledger.book(run)
        _after(world, queue, visit, run)
    return queue.left


def _take(world: World, queue: Queue, visit: Visit) -> tuple[Place, int] | None:
    """The place that can start first and its start; among equals one by lot."""
    starts = [
        (start, number)
        for number, place in enumerate(queue.test.places)
        if place.station != visit.avoids
        and (start := _start(queue, number, place, visit.arrives)) is not None
    ]
    if not starts:
        return None
    first = min(starts)[0]
    equals = [number for start, number in starts if start == first]
    number = equals[int(world.rng.integers(len(equals)))]
    queue.free_at[number] = first + queue.test.length + 20
    return queue.test.places[number], first


def _start(queue: Queue, number: int, place: Place, arrives: int) -> int | None:
    earliest = max(arrives, queue.free_at[number])
    lead = BAYS_OPEN_AFTER if place.bay else 0
    # Room for the few seconds by which a run may last longer.
    start = first_start(earliest - lead, queue.test.length + lead + 10, crew=place.crew)
    return None if start is None else start + lead


def _after(world: World, queue: Queue, visit: Visit, run: Run) -> None:
    """Send a unit on, back, or nowhere, by what its run gave."""
    _SENDS[run.result](world, queue, visit, run)


def _after_pass(world: World, queue: Queue, visit: Visit, run: Run) -> None:
    if run.void == "weak":
        _recall(queue, visit, run)
    if world.plans.get((visit.unit.number, queue.test.name)) is Plan.HOLD:
        world.events.append(
            Event(visit.unit.vin, run.ended + 10 * MINUTE, "hold", "hold area", entered_by="Q02")
        )
        return
    queue.leave(visit.unit, run.ended)


def _after_fail(world: World, queue: Queue, visit: Visit, run: Run) -> None:
    if run.void is not None:
        # The bench itself failed: the unit goes straight to another one.
        again = _again(visit, run.ended + 5 * MINUTE, avoids=run.station)
        heappush(queue.visits, again)
        return
    way = after_fail(world, run, queue.test)
    if way.back_at is not None:
        heappush(queue.visits, _again(visit, way.back_at, avoids=way.avoids))


def _after_aborted(world: World, queue: Queue, visit: Visit, run: Run) -> None:
    if run.findings:
        _after_fail(world, queue, visit, run)
    else:
        heappush(queue.visits, _again(visit, run.ended + 5 * MINUTE))


def _after_bypass(world: World, queue: Queue, visit: Visit, run: Run) -> None:
    plan = world.plans[(visit.unit.number, queue.test.name)]
    if plan is Plan.BYPASS_RETESTED:
        heappush(queue.visits, _again(visit, run.ended + _LATER))
    elif plan is not Plan.BYPASS_WAITS:
        queue.leave(visit.unit, run.ended)


def _recall(queue: Queue, visit: Visit, run: Run) -> None:
    """Void passes within reach are tested again, in turn, once the filter is changed."""
    if run.ended < OUT_OF_REACH:
        return
    at = working_second(_RECALL_FROM, 10 * MINUTE + _RECALL_EVERY * queue.recalled)
    queue.recalled += 1
    heappush(queue.visits, _again(visit, at))


def _again(visit: Visit, second: int, *, avoids: str | None = None) -> Visit:
    return Visit(second, visit.number, visit.tries + 1, visit.unit, avoids)


_SENDS: dict[str, Callable[[World, Queue, Visit, Run], None]] = {
    "pass": _after_pass,
    "fail": _after_fail,
    "aborted": _after_aborted,
    "bypass": _after_bypass,
}


def check_references(world: World, ledger: Ledger, shifts: Iterable[int]) -> None:
    """Send each bay's reference vehicle through it at the start of every shift."""
    for number in shifts:
        for unit, bay in zip(world.references, "ABC", strict=True):
            run = judge_reference(world, unit, bay, number)
            world.runs.append(run)
            ledger.book(run)
