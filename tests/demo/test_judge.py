import numpy as np
import pytest

from eol.demo.catalogue import TESTS, Place
from eol.demo.judge import judge, judge_reference
from eol.demo.plan import shift_of
from eol.demo.units import build_units, reference_units
from eol.demo.world import Plan, World

WATER = TESTS[2]
QUIET = shift_of(2, "day").starts


@pytest.fixture
def world() -> World:
    """A plant whose first unit has one plain leak."""
    rng = np.random.default_rng(3)
    world = World(rng, build_units(rng, [0.2] * 20), false_level=[1.0] * 16_000)
    world.plant("WL-TAIL", world.units[:1], count=1, level=0.0)
    return world


def test_a_leak_that_is_seen_fails_the_unit(world: World) -> None:
    """The finding says where and at which step."""
    run = judge(world, world.units[0], WATER, Place("W", "A"), QUIET, tries=1)
    assert (run.result, run.void, run.findings[0].zone) == ("fail", None, "TAIL")


def test_a_pass_of_the_blind_bay_is_void(world: World) -> None:
    """A fail there counts, a pass proves nothing (rule 4)."""
    blind = shift_of(10, "day").starts
    runs = [judge(world, unit, WATER, Place("W", "B"), blind, tries=1) for unit in world.units[:2]]
    assert [(run.result, run.void) for run in runs] == [("fail", None), ("pass", "weak")]


def test_an_abort_with_water_found_keeps_its_finding(world: World) -> None:
    """It ends after the step before the one that leaked, and counts (rule 5)."""
    world.plans[0, "water"] = Plan.ABORT
    run = judge(world, world.units[0], WATER, Place("W", "A"), QUIET, tries=0)
    assert (run.result, run.void, run.last_step, len(run.findings)) == ("aborted", None, "roof", 1)


def test_a_bypass_is_void_and_comes_once(world: World) -> None:
    """The next run is a test like any other."""
    world.plans[1, "water"] = Plan.BYPASS_RETESTED
    runs = [judge(world, world.units[1], WATER, Place("W", "A"), QUIET, tries=t) for t in (0, 1)]
    assert [(run.result, run.void) for run in runs] == [("bypass", "bypass"), ("pass", None)]


@pytest.mark.parametrize(
    ("day", "result", "void"), [(5, "fail", None), (6, "pass", None), (10, "pass", "weak")]
)
def test_reference_vehicle_is_missed_by_a_clogged_bay(
    world: World, day: int, result: str, void: str | None
) -> None:
    """S2: caught until day 5, missed inside the limits, then void."""
    [unit] = reference_units(1, after=16_000)
    run = judge_reference(world, unit, "B", shift_of(day, "day").number)
    assert (run.result, run.void) == (result, void)
