import numpy as np
import pytest

from eol.demo.catalogue import Place
from eol.demo.plan import shift_of
from eol.demo.record import Record
from eol.demo.senses import falsely_called, filter_state, sees, water_conditions
from eol.demo.world import Fault

LEAK = Fault("WL-SEAM", "RR-QTR", "rear", 0.5)
CREAK = Fault("SR-CREAK", "DASH", "setts", 0.9)


@pytest.mark.parametrize(
    ("day", "state"),
    [(5, "sound"), (6, "slipping"), (9, "slipping"), (10, "blind"), (11, "blind"), (12, "sound")],
)
def test_filter_clogs_by_day(day: int, state: str) -> None:
    """S2: bay B from day 6 to its new filter on day 12; the other bays never."""
    second = shift_of(day, "day").starts
    assert filter_state("B", second) == state
    assert filter_state("A", second) == "sound"


def test_pressure_is_inside_its_limits_until_the_bay_is_blind() -> None:
    """S2: 228 kPa passes the limit of 220, 212 kPa does not."""
    rng = np.random.default_rng(1)
    for day, inside in ((3, True), (7, True), (10, False)):
        second = shift_of(day, "night").starts
        pressures = [water_conditions(rng, "B", second)[0] for _ in range(500)]
        assert all((220 <= pressure <= 280) is inside for pressure in pressures)


def test_a_clogged_bay_misses_what_another_sees() -> None:
    """S2: the plainer a leak the longer it is seen."""
    second = shift_of(7, "day").starts
    assert sees(LEAK, Place("W", "A"), second)
    assert not sees(LEAK, Place("W", "B"), second)


def test_keen_evaluator_calls_more_creaks() -> None:
    """S6: E17 calls what the others let pass, of this code alone."""
    assert sees(CREAK, Place("T1", operator="E17"), 0)
    assert not sees(CREAK, Place("T1", operator="E03"), 0)


def test_false_bench_calls_sound_units(record: Record) -> None:
    """S5: about 3.6 % of the sound units, at E2-2 alone and from day 6 on."""
    world, second = record.world, shift_of(6, "day").starts
    here = [u for u in world.units if falsely_called(world, u, Place("E2-2"), second)]
    assert len(here) / len(world.units) == pytest.approx(0.036, abs=0.005)
    assert not falsely_called(world, here[0], Place("E2-1"), second)
    assert not falsely_called(world, here[0], Place("E2-2"), second - 1)
