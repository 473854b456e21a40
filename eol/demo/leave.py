"""How units leave: signed off, released, shipped; and the two windscreens broken on the way."""

from __future__ import annotations

from dataclasses import dataclass, field

from eol.demo.catalogue import INSPECTORS, TESTS
from eol.demo.judge import judge
from eol.demo.ledger import Ledger
from eol.demo.plan import (
    DAY,
    HOUR,
    MINUTE,
    RECORD_ENDS,
    SHIFTS,
    first_start,
    shift_at,
)
from eol.demo.units import Unit
from eol.demo.world import Event, Plan, Repair, World

YARDS = ("yard north", "yard east", "yard river")
LOAD = 8
"""Units of one lorry."""

YARD_TIME = 70 * HOUR
"""How long a unit stands in the yard at least."""

_SHIP_AT = 15 * HOUR
_WATER = next(test for test in TESTS if test.name == "water")


@dataclass(slots=True)
class Left:
    """Who left: second of the sign-off and of the shipping, by unit number."""

    signed_off: dict[int, int] = field(default_factory=dict)
    shipped: dict[int, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Windscreens:
    """Two units whose windscreen was changed after their water test."""

    tested_again: Unit
    not_tested_again: Unit

    def holds(self, unit: Unit) -> bool:
        """Say whether a unit is one of the two."""
        return unit is self.tested_again or unit is self.not_tested_again


def sign_off(
    world: World, ledger: Ledger, passed: dict[int, int], windscreens: Windscreens
) -> Left:
    """Sign off every unit that the plant believes tested, then ship what has stood long enough."""
    left = Left()
    for number, second in sorted(passed.items(), key=lambda item: item[1]):
        if number >= len(world.units):
            continue
        unit = world.units[number]
        ready = second + int(world.rng.integers(3, 12)) * MINUTE
        if windscreens.holds(unit):
            again = unit is windscreens.tested_again
            ready = _change_windscreen(world, ledger, unit, ready, again=again)
        at = first_start(ready, MINUTE)
        if at is not None:
            left.signed_off[number] = at
            world.events.extend(_signed(world, unit, at))
    _ship(world, ledger, left)
    return left


def release_safety(world: World, ledger: Ledger, open_units: int) -> list[str]:
    """Release units once failed for a safety-related code and clear since; the last few wait.

    Args:
        world: the plant.
        ledger: its count.
        open_units: how many of the latest are not released.

    Returns:
        The VINs that still wait for their release.
    """
    failed = {
        defect.run.vin: defect.run.ended
        for code in ("EL-ISO", "EL-BELT")
        for defect in ledger.defects_of(code)
        if ledger.standings[defect.run.vin, "electrical"].clear
    }
    vins = sorted(failed, key=lambda vin: failed[vin])
    for number, vin in enumerate(vins[: len(vins) - open_units]):
        at = first_start(_last_electrical(ledger, vin) + 30 * MINUTE, MINUTE)
        if at is not None:
            reference = f"SR-{number + 1:04}"
            world.events.append(Event(vin, at, "release", None, reference, None, "Q03"))
    return vins[len(vins) - open_units :]


def _last_electrical(ledger: Ledger, vin: str) -> int:
    """The end of a unit's latest counted electrical run."""
    latest = ledger.standings[vin, "electrical"].latest
    return latest.ended if latest else RECORD_ENDS


def _signed(world: World, unit: Unit, at: int) -> list[Event]:
    shift = shift_at(at) or SHIFTS[-1]
    inspectors = INSPECTORS[shift.crew]
    inspector = inspectors[int(world.rng.integers(len(inspectors)))]
    yard = YARDS[int(world.rng.integers(len(YARDS)))]
    events = [Event(unit.vin, at, "signed_off", yard, entered_by=inspector)]
    if Plan.BYPASS_RELEASED in _plans(world, unit):
        note = "water test by hand in the repair shop, dry"
        events.append(Event(unit.vin, at + 20 * MINUTE, "release", yard, "CR-0117", note, "Q01"))
    return events


def _plans(world: World, unit: Unit) -> list[Plan]:
    plans = [world.plans.get((unit.number, test.name)) for test in TESTS]
    return [plan for plan in plans if plan is not None]


def _change_windscreen(
    world: World, ledger: Ledger, unit: Unit, second: int, *, again: bool
) -> int:
    """Change a windscreen hit by a stone on the track; say when the unit is ready for sign-off."""
    start = second + 20 * MINUTE
    end = start + 90 * MINUTE
    part = {"part": "windscreen", "lot": "WS-2611"}
    world.repairs.append(
        Repair(
            unit.vin, None, None, "RF-GLASS", start, end,
            "windscreen replaced", "replaced", "glass", "repair: glass", **part,
        )
    )  # fmt: skip
    retest = first_start(end + 60 * MINUTE, _WATER.length + 10)
    if not again or retest is None:
        return end + 10 * MINUTE
    run = judge(world, unit, _WATER, _WATER.places[0], retest, tries=1)
    world.runs.append(run)
    ledger.book(run)
    return run.ended + 5 * MINUTE


def _ship(world: World, ledger: Ledger, left: Left) -> None:
    """Ship every working day at 15:00 what was signed off long enough before and may go."""
    waiting = sorted(left.signed_off, key=lambda number: left.signed_off[number])
    for shift in SHIFTS[::2]:
        leaves = (shift.starts // DAY) * DAY + _SHIP_AT
        going = [n for n in waiting if _may_go(world, ledger, left, n, leaves)]
        gone = set(going)
        waiting = [number for number in waiting if number not in gone]
        for place, number in enumerate(going):
            lorry = place // LOAD
            at = leaves + lorry * MINUTE + place % LOAD * 5
            reference = f"L-{shift.production_date:%m%d}-{lorry + 1:02}"
            left.shipped[number] = at
            world.events.append(
                Event(world.units[number].vin, at, "ship", "on the road", reference)
            )


def _may_go(world: World, ledger: Ledger, left: Left, number: int, leaves: int) -> bool:
    if left.signed_off[number] + YARD_TIME > leaves:
        return False
    water = ledger.standing(world.units[number], "water")
    if water.latest is None or water.void_since is not None:
        return True
    # A unit that was called back for its water test waits until it is clear.
    return water.clear and water.latest.ended < leaves
