"""The planted stories, one function each: what is hidden in the units before they are tested.

S2 (a blind bay), S5 (a false bench) and S6 (a keen evaluator) lie in what benches and evaluators
see: eol.demo.senses. Of S9 the units with a fate of their own are in eol.demo.fates, what the
plant sends wrongly in eol.demo.dirt.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from eol.demo.plan import PRODUCTION_DAYS, UNITS_PER_SHIFT, Shift, shift_of
from eol.demo.units import BEAD_SET, FIRST_SEQ, Unit
from eol.demo.world import World

NOZZLE_ROBOT = "R07"
NOZZLE_DAYS = (9, 10, 11, 12)
NOZZLE_UNITS = 785
BEAD_WORN = 4.4
BEAD_LEAKS_BELOW = 4.8
NOZZLE_LEAK_SHARE = 0.10
_FALL_OVER = 2.2 * UNITS_PER_SHIFT

MIRROR_FROM_SEQ = 106_401
MIRROR_SHARES = (0.018, 0.003)

TAPE_TRIGGER = shift_of(6, "night")
TAPE_FROM_SEQ = FIRST_SEQ + UNITS_PER_SHIFT * (TAPE_TRIGGER.number + 1)
TAPE_TRIGGER_DEFECTS = 12
_CREAK_SHARES = (0.0210, 0.0230)
"""Share of units with a creak that the keen evaluator calls, before and after the felt tape."""

DOOR_FROM_SEQ = FIRST_SEQ + 39 * UNITS_PER_SHIFT

BAD_LOT = "C-4471"
LOT_DAYS = (11, 14)
LOT_UNITS = 1_105
LOT_RATTLES = 73
OTHER_RATTLES = 15
_RATTLE_SHARE = 0.004
_LOT_KNOWN_SHARE = 0.72

ROOF_SHARES = (0.19, 0.52)
ROOF_FROM_DAY = 15
_DRAIN_SHARE = 0.02

GLASS_SHIFT = shift_of(17, "night")
GLASS_DEFECTS = 6

TAIL = 60
"""Units that a shift leaves in the flow for the next one, at most."""


@dataclass(frozen=True, slots=True)
class Lot:
    """A lot of clips and the build sequence that used it."""

    part: str
    lot: str
    first_seq: int
    last_seq: int


def roof_mix() -> list[float]:
    """S7: the share of opening roofs of each day; drains leak as ever (decoy of a process fault)."""
    few, many = ROOF_SHARES
    return [few if day < ROOF_FROM_DAY else many for day in range(1, PRODUCTION_DAYS + 1)]


def plant_stories(world: World) -> None:
    """Hide all stories in the units."""
    world.plant_usual()
    world.false_level = world.rng.random(len(world.units)).tolist()
    nozzle(world)
    mirror(world)
    felt_tape(world)
    clip_lot(world)
    drains(world)
    glass_decoy(world)


def nozzle(world: World) -> None:
    """S1: the nozzle of R07 wears through four nights; seams under a thin bead leak at RR-QTR."""
    units = [unit for day in NOZZLE_DAYS for unit in units_of(world, shift_of(day, "night"))]
    world.clear("WL-SEAM", units, zone="RR-QTR")
    chosen = set(world.rng.choice(len(units), NOZZLE_UNITS, replace=False).tolist())
    for place, unit in enumerate(units):
        unit.robot = NOZZLE_ROBOT if place in chosen else "R08"
        if place in chosen:
            worn = min(place / _FALL_OVER, 1.0) * (BEAD_SET - BEAD_WORN)
            unit.bead = round(unit.bead - worn, 2)
    thin = [unit for unit in units if unit.robot == NOZZLE_ROBOT and unit.bead < BEAD_LEAKS_BELOW]
    world.plant("WL-SEAM", thin, share=NOZZLE_LEAK_SHARE, zone="RR-QTR", step="rear")


def mirror(world: World) -> None:
    """S3a: a new mirror connector from one sequence on; it works."""
    cut = MIRROR_FROM_SEQ - FIRST_SEQ
    before, after = MIRROR_SHARES
    world.plant("EL-MIRROR", world.units[:cut], share=before)
    world.plant("EL-MIRROR", world.units[cut:], share=after)


def felt_tape(world: World) -> None:
    """S3b: felt tape against the creak, cut in after one bad shift; it changes nothing."""
    cut, trigger = TAPE_FROM_SEQ - FIRST_SEQ, TAPE_TRIGGER.number * UNITS_PER_SHIFT
    before, after = _CREAK_SHARES
    world.plant("SR-CREAK", world.units[: trigger - TAIL], share=before)
    world.plant(
        "SR-CREAK", world.units[trigger : cut - TAIL], count=TAPE_TRIGGER_DEFECTS, level=0.0
    )
    world.plant("SR-CREAK", world.units[cut:], share=after)


def clip_lot(world: World) -> None:
    """S4: a lot of clips rattles; it came with others through four days of both shifts.

    Its days overlap with S1's nights: a correlation by time alone (decoy).
    """
    lots = {lot.lot: lot for lot in clip_lots()}
    for unit in world.units:
        open_lots = [lot.lot for lot in lots.values() if _holds(lot, unit) and lot.lot != BAD_LOT]
        known = in_lot_days(unit) or world.rng.random() < _LOT_KNOWN_SHARE
        place = int(world.rng.integers(len(open_lots)))
        unit.clip_lot = open_lots[place] if known else None
    pool = [unit for unit in world.units if in_lot_days(unit)]
    for place in world.rng.choice(len(pool), LOT_UNITS, replace=False).tolist():
        pool[place].clip_lot = BAD_LOT
    bad = [unit for unit in pool if unit.clip_lot == BAD_LOT]
    world.plant("SR-TAILTRIM", bad, count=LOT_RATTLES)
    good = [unit for unit in pool if unit.clip_lot != BAD_LOT]
    world.plant("SR-TAILTRIM", good, count=OTHER_RATTLES)
    others = [unit for unit in world.units if not in_lot_days(unit)]
    world.plant("SR-TAILTRIM", others, share=_RATTLE_SHARE)


def drains(world: World) -> None:
    """S7: roof drains leak at one rate among opening roofs, however many there are."""
    opening = [unit for unit in world.units if unit.roof == "opening"]
    world.plant("WL-DRAIN", opening, share=_DRAIN_SHARE)


def glass_decoy(world: World) -> None:
    """S8: in one shift glass leaks happen to lead the water codes; it means nothing."""
    here = units_of(world, GLASS_SHIFT)
    first = GLASS_SHIFT.number * UNITS_PER_SHIFT
    around = world.units[first - TAIL : first + UNITS_PER_SHIFT]
    for code, count in (("WL-GLASS", GLASS_DEFECTS), ("WL-DOOR", 3), ("WL-DRAIN", 3)):
        world.clear(code, around)
        fit = [unit for unit in here[:-TAIL] if code != "WL-DRAIN" or unit.roof == "opening"]
        world.plant(code, fit, count=count)


def units_of(world: World, shift: Shift) -> Sequence[Unit]:
    """Return the units that left the line in a shift."""
    first = shift.number * UNITS_PER_SHIFT
    return world.units[first : first + UNITS_PER_SHIFT]


def in_lot_days(unit: Unit) -> bool:
    """Say whether a unit was built while the bad lot was at the line."""
    return LOT_DAYS[0] <= unit.shift.day <= LOT_DAYS[1]


def clip_lots() -> list[Lot]:
    """Return the lots of tail trim clips, most of them one after the other."""
    days = ((1, 2), (3, 5), (6, 7), (8, 10), (11, 14), (11, 14), (11, 14), (15, 17), (18, 20))
    numbers = (4466, 4467, 4468, 4469, 4470, 4471, 4472, 4473, 4474)
    return [
        Lot(
            "tail trim clip",
            f"C-{number}",
            FIRST_SEQ + 2 * UNITS_PER_SHIFT * (first - 1),
            FIRST_SEQ + 2 * UNITS_PER_SHIFT * last - 1,
        )
        for number, (first, last) in zip(numbers, days, strict=True)
    ]


def _holds(lot: Lot, unit: Unit) -> bool:
    return lot.first_seq <= FIRST_SEQ + unit.number <= lot.last_seq
