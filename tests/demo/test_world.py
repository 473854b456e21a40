import numpy as np
import pytest

from eol.demo.units import build_units
from eol.demo.world import World


@pytest.fixture
def world() -> World:
    """A plant without any fault."""
    rng = np.random.default_rng(7)
    return World(rng, build_units(rng, [0.2] * 20))


def test_plant_meets_a_share_of_units(world: World) -> None:
    """Drawn without return, from the eligible alone."""
    met = world.plant("WL-SEAM", world.units[:200], share=0.1, zone="RR-QTR")
    assert len({unit.number for unit in met}) == 20
    assert {number for number, faults in world.faults.items() if faults} == {u.number for u in met}


def test_plant_meets_a_number_of_units(world: World) -> None:
    """With the level that was asked for."""
    [unit] = world.plant("EL-CAM", world.units, count=1, level=0.0)
    assert [fault.level for fault in world.faults[unit.number]] == [0.0]


def test_clear_takes_one_zone_or_all(world: World) -> None:
    """Other codes and zones stay."""
    units = world.units[:10]
    world.plant("WL-SEAM", units, share=1.0, zone="RR-QTR")
    world.plant("WL-SEAM", units, share=1.0, zone="TAIL")
    world.clear("WL-SEAM", units, zone="RR-QTR")
    assert [fault.zone for fault in world.faults[0]] == ["TAIL"]
    world.clear("WL-SEAM", units)
    assert world.faults[0] == []


def test_a_test_finds_its_own_codes(world: World) -> None:
    """A unit's faults are asked for test by test, and mended ones are gone."""
    unit = world.units[0]
    world.plant("WL-SEAM", [unit], count=1)
    world.plant("SR-SEAT", [unit], count=1)
    [leak] = world.faults_of(unit, "water")
    world.mend(unit, [leak])
    assert world.faults_of(unit, "water") == []
    assert [fault.code for fault in world.faults_of(unit, "squeak_rattle")] == ["SR-SEAT"]
