import pytest

from eol.demo import stories
from eol.demo.plan import shift_of
from eol.demo.record import Record
from eol.demo.units import FIRST_SEQ


def test_bead_of_r07_falls_below_its_limit(record: Record) -> None:
    """S1: from 6.0 to 4.4 mm through the nights, for R07 alone."""
    nights = [shift_of(day, "night") for day in stories.NOZZLE_DAYS]
    last = stories.units_of(record.world, nights[-1])
    beads = {robot: [unit.bead for unit in last if unit.robot == robot] for robot in ("R07", "R08")}
    assert sum(beads["R07"]) / len(beads["R07"]) == pytest.approx(4.4, abs=0.05)
    assert min(beads["R08"]) > 5.4


def test_days_between_the_nights_have_their_bead(record: Record) -> None:
    """S1: not a day of it by day."""
    for day in stories.NOZZLE_DAYS:
        units = stories.units_of(record.world, shift_of(day, "day"))
        assert min(unit.bead for unit in units) > 5.4


def test_bad_lot_is_a_third_of_its_days(record: Record) -> None:
    """S4: 35 % of the units of days 11 to 14, whose lot is always known."""
    units = [unit for unit in record.world.units if stories.in_lot_days(unit)]
    lots = [unit.clip_lot for unit in units]
    assert lots.count(stories.BAD_LOT) / len(lots) == pytest.approx(0.35, abs=0.01)
    assert None not in lots


def test_every_known_lot_was_open(record: Record) -> None:
    """S4: a unit has clips of a lot whose range holds its sequence."""
    ranges = {lot.lot: (lot.first_seq, lot.last_seq) for lot in stories.clip_lots()}
    for unit in record.world.units:
        if unit.clip_lot is not None:
            first, last = ranges[unit.clip_lot]
            assert first <= FIRST_SEQ + unit.number <= last


def test_felt_tape_cuts_in_after_the_bad_shift() -> None:
    """S3b: at the next shift's first unit."""
    assert shift_of(6, "night") == stories.TAPE_TRIGGER
    assert FIRST_SEQ + 400 * shift_of(7, "day").number == stories.TAPE_FROM_SEQ


def test_roofs_change_on_day_15() -> None:
    """S7: 19 % before, 52 % from then on."""
    shares = stories.roof_mix()
    assert (shares[13], shares[14]) == (0.19, 0.52)
