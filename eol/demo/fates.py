"""S9, the units with a fate of their own: aborted wet, scrapped, held, bypassed, two windscreens."""

from __future__ import annotations

from eol.demo.catalogue import CODE_OF
from eol.demo.leave import Windscreens
from eol.demo.plan import UNITS_PER_SHIFT, shift_of
from eol.demo.senses import BLIND_DAYS
from eol.demo.stories import BAD_LOT, TAIL, units_of
from eol.demo.units import Unit
from eol.demo.world import Plan, World

WET_ABORTS = 9

_SCRAPPED = (("WL-GROMMET", 4), ("AL-CAMBER", 9), ("EL-CAM", 15))
_HELD = (("WL-GLASS", 19), ("EL-LAMP", 20))
"""Code that the unit fails for, and its production day."""

_HELD_OF_LOT = range(12, 15)
"""Production days on which a unit of the bad lot is held before the track."""

_BYPASSED = (
    (Plan.BYPASS_RELEASED, "water", 5),
    (Plan.BYPASS_RETESTED, "electrical", 9),
    (Plan.BYPASS_SHIPPED, "water", 15),
    (Plan.BYPASS_WAITS, "electrical", 20),
)
_WINDSCREEN_DAYS = (13, 8)


def single_units(world: World) -> Windscreens:
    """Choose the units and write their fates into the script.

    Returns:
        The two whose windscreen is changed after their water test.
    """
    _abort_wet(world)
    for code, day in _SCRAPPED:
        _doom(world, code, day, Plan.SCRAP)
    for code, day in _HELD:
        _doom(world, code, day, Plan.HOLD)
    for day in _HELD_OF_LOT:
        lot = [unit for unit in _quiet(world, day) if unit.clip_lot == BAD_LOT]
        world.plans[lot[40].number, "water"] = Plan.HOLD
    for plan, test, day in _BYPASSED:
        world.plans[_one(world, day).number, test] = plan
    again, not_again = (_one(world, day) for day in _WINDSCREEN_DAYS)
    return Windscreens(again, not_again)


def _abort_wet(world: World) -> None:
    """Nine units with one plain leak of which the bench stops as soon as it sees water."""
    fit = [
        unit
        for unit in world.units[: -2 * UNITS_PER_SHIFT]
        if len(faults := world.faults.get(unit.number, [])) == 1
        and faults[0].code in ("WL-DOOR", "WL-TAIL")
        and faults[0].step == "rear"
        and unit.shift.day not in BLIND_DAYS
    ]
    for place in sorted(world.rng.choice(len(fit), WET_ABORTS, replace=False).tolist()):
        world.faults[fit[place].number][0].level = 0.0
        world.plans[fit[place].number, "water"] = Plan.ABORT


def _doom(world: World, code: str, day: int, plan: Plan) -> None:
    unit = _one(world, day)
    world.plant(code, [unit], count=1, level=0.0)
    world.plans[unit.number, CODE_OF[code].test or ""] = plan


def _quiet(world: World, day: int) -> list[Unit]:
    """Units of a day shift that have no fault and no fate yet, without the shift's last."""
    fated = {number for number, _ in world.plans}
    return [
        unit
        for unit in units_of(world, shift_of(day, "day"))[:-TAIL]
        if not world.faults.get(unit.number)
        and unit.number not in fated
        and world.false_level[unit.number] > 0.1
    ]


def _one(world: World, day: int) -> Unit:
    quiet = _quiet(world, day)
    return quiet[int(world.rng.integers(100, 200))]
