"""What each bench, bay and evaluator sees, and how hard the water test truly was."""

from __future__ import annotations

import numpy as np

from eol.demo.catalogue import Place
from eol.demo.plan import shift_of
from eol.demo.units import Unit
from eol.demo.world import Fault, World

BLIND_BAY = "B"
SLIPPING_DAYS = (6, 9)
BLIND_DAYS = (10, 11)
PRESSURE = {"sound": 250.0, "slipping": 228.0, "blind": 212.0}
"""kPa on average while the filter of bay B is clean, half clogged and clogged."""

SEES = {"sound": 1.0, "slipping": 0.35, "blind": 0.12}
"""Share of the leaks that the bay finds then."""

FALSE_STATION = "E2-2"
FALSE_FROM_DAY = 6
FALSE_SHARE = 0.036
"""Share of sound charge ports that bench E2-2 calls faulty from then on."""

KEEN_EVALUATOR = "E17"
USUAL_EAR = 1 / 2.3
"""Share of the creaks heard by E17 that the other evaluators call."""

REFERENCE_NEEDS = 0.5
"""A reference vehicle leaks little: a bay that sees less than this share misses it."""


def filter_state(bay: str | None, second: int) -> str:
    """Return `sound`, `slipping` or `blind`: the state of a water bay's filter."""
    if bay != BLIND_BAY or second < shift_of(SLIPPING_DAYS[0], "day").starts:
        return "sound"
    if second < shift_of(BLIND_DAYS[0], "day").starts:
        return "slipping"
    return "blind" if second < shift_of(BLIND_DAYS[1] + 1, "day").starts else "sound"


def water_conditions(
    rng: np.random.Generator, bay: str | None, second: int
) -> tuple[float, float, float]:
    """Return pressure in kPa, duration in s and flow in l/min of one water run."""
    state = filter_state(bay, second)
    spread = 2.5 if state == "sound" else 1.4
    away = float(np.clip(rng.normal(0, spread), -2.6 * spread, 2.6 * spread))
    pressure = PRESSURE[state] + away
    flow = 42.0 * (pressure / 250.0) ** 0.5 + float(rng.normal(0, 0.3))
    return round(pressure, 1), round(240 + float(rng.uniform(-4, 4)), 1), round(flow, 1)


def sees(fault: Fault, place: Place, second: int) -> bool:
    """Say whether a place finds a fault at a second."""
    if place.bay is not None:
        return fault.level < SEES[filter_state(place.bay, second)]
    if fault.code == "SR-CREAK" and place.operator != KEEN_EVALUATOR:
        return fault.level < USUAL_EAR
    return True


def falsely_called(world: World, unit: Unit, place: Place, second: int) -> bool:
    """Say whether the bad bench calls the charge port of a unit that has no such fault."""
    if place.station != FALSE_STATION or second < shift_of(FALSE_FROM_DAY, "day").starts:
        return False
    sound = all(fault.code != "EL-CHARGE" for fault in world.faults.get(unit.number, ()))
    return sound and unit.kind == "production" and world.false_level[unit.number] < FALSE_SHARE
