from itertools import pairwise

import numpy as np

from eol.demo.record import Record
from eol.demo.units import build_units, make_vins

LETTERS = ("AJ", "BKS", "CLT", "DMU", "ENV", "FW", "GPX", "HY", "RZ")
VALUES = {letter: number for number, row in enumerate(LETTERS, start=1) for letter in row}
WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2]


def due_digit(vin: str) -> str:
    """The check digit, computed apart from the tool (49 CFR 565.15)."""
    numbers = [int(sign) if sign.isdigit() else VALUES[sign] for sign in vin]
    rest = sum(number * weight for number, weight in zip(numbers, WEIGHTS, strict=True)) % 11
    return "X" if rest == 10 else str(rest)


def test_every_vin_is_valid_and_of_no_maker(record: Record) -> None:
    """17 signs from 0ZZK on, without I, O and Q, with the right check digit, no two the same."""
    world = record.world
    vins = [unit.vin for unit in (*world.units, *world.trials, *world.references)]
    vins.append(record.dirt.unknown_vin)
    assert len(set(vins)) == len(vins)
    for vin in vins:
        assert len(vin) == 17
        assert vin.startswith("0ZZK")
        assert not set(vin) & set("IOQ")
        assert vin[8] == due_digit(vin)


def test_reference_vehicles_are_told_by_their_vin(record: Record) -> None:
    """One a water bay."""
    assert [unit.vin[:7] for unit in record.world.references] == ["0ZZKREF"] * 3


def test_build_sequence_is_the_order_of_the_line(record: Record) -> None:
    """100001 to 116000 in the order in which they left the line, 400 a shift."""
    units = record.world.units
    assert [unit.build_seq for unit in units] == list(range(100_001, 116_001))
    assert all(one.line_off <= other.line_off for one, other in pairwise(units))  # type: ignore[operator]
    assert all(u.shift.starts <= (u.line_off or 0) < u.shift.ends for u in units)


def test_share_of_opening_roofs_is_what_was_asked() -> None:
    """By production day."""
    units = build_units(np.random.default_rng(1), [0.0] * 10 + [1.0] * 10)
    assert {unit.roof for unit in units[:8_000]} == {"fixed"}
    assert {unit.roof for unit in units[8_000:]} == {"opening"}


def test_check_digit_takes_the_place_of_the_question_mark() -> None:
    """The digit depends on all other signs."""
    one, other = make_vins(["WAG0?TK100001", "WAG0?TK100002"])
    assert one[8] != other[8]
