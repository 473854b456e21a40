"""The whole record from one seed: units, stories, the way through the tests, the leaving, the dirt."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from eol.demo import dirt, stories
from eol.demo.fates import single_units
from eol.demo.flow import check_references, run_tests
from eol.demo.leave import Left, Windscreens, release_safety, sign_off
from eol.demo.ledger import Ledger
from eol.demo.plan import SHIFTS
from eol.demo.tables import name_runs
from eol.demo.units import build_units, reference_units, trial_units
from eol.demo.world import World

TRIAL_VANS = 6
TRIAL_DAY = 7
SAFETY_OPEN = 3
"""Units failed for a safety-related code and clear since that nobody has released yet."""


@dataclass(frozen=True, slots=True)
class Record:
    """All that happened and was written down, with the generator's own count of it."""

    world: World
    ledger: Ledger
    left: Left
    dirt: dirt.Dirt
    windscreens: Windscreens
    unreleased: tuple[str, ...]


def make_record(seed: int) -> Record:
    """Make the plant's record; the same seed gives the same record."""
    rng = np.random.default_rng(seed)
    world = World(rng, build_units(rng, stories.roof_mix()))
    world.trials = trial_units(TRIAL_VANS, day=TRIAL_DAY)
    world.references = reference_units(3, after=len(world.units) + TRIAL_VANS)
    stories.plant_stories(world)
    windscreens = single_units(world)
    mistyped = dirt.mistype(world)
    ledger = Ledger()
    passed = run_tests(world, ledger)
    check_references(world, ledger, range(len(SHIFTS)))
    left = sign_off(world, ledger, passed, windscreens)
    unreleased = release_safety(world, ledger, SAFETY_OPEN)
    name_runs(world.runs)
    planted = dirt.make_dirt(world, ledger, mistyped)
    return Record(world, ledger, left, planted, windscreens, tuple(unreleased))
