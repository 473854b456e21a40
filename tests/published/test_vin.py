"""The check digit of 49 CFR 565.15(c), Tables III to V.

The first sample is printed in the regulation, the seventeen ones are a widely used self-check, the
invented ones were computed with the regulation's tables.
"""

from __future__ import annotations

import polars as pl
import pytest

from eol.feeds.vin import LETTER_VALUES, WEIGHTS, check_digits


def digit(vin: str) -> str:
    """The check digit due."""
    return str(check_digits(pl.Series([vin.replace("?", "0")]))[0])


def plain_sum(vin: str) -> int:
    """The weighted sum by a plain loop."""
    values = [int(sign) if sign.isdigit() else LETTER_VALUES[sign] for sign in vin]
    return sum(value * weight for value, weight in zip(values, WEIGHTS, strict=True))


def test_tables() -> None:
    """A-H are 1-8, J-N 1-5, P 7, R 9, S-Z 2-9; I, O and Q have no value."""
    assert "".join(LETTER_VALUES) == "ABCDEFGHJKLMNPRSTUVWXYZ"
    assert list(LETTER_VALUES.values()) == [*range(1, 9), *range(1, 6), 7, 9, *range(2, 10)]
    assert WEIGHTS == (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)


def test_sample_of_the_regulation() -> None:
    """The printed sample: weighted sum 411, remainder and check digit 4."""
    vin = "1G4AH59H?5G118341"
    assert plain_sum(vin.replace("?", "0")) == 411
    assert digit(vin) == "4"


def test_seventeen_ones() -> None:
    """Seventeen ones agree with themselves: weighted sum 89, digit 1."""
    assert plain_sum("1" * 17) == 89
    assert digit("1" * 17) == "1"


@pytest.mark.parametrize(
    ("vin", "due"),
    [("ZZZ00000?T1000001", "6"), ("ZZZ00000?T1000002", "8"), ("ZZZAB12C?T1000123", "4")],
)
def test_invented(vin: str, due: str) -> None:
    """Three invented identifiers."""
    assert digit(vin) == due


def test_remainder_ten_is_x() -> None:
    """A remainder of 10 is written X; some VIN of a row of numbers has it."""
    vins = [f"ZZZ000000T10000{number:02d}" for number in range(1, 30)]
    due = check_digits(pl.Series(vins)).to_list()
    plain = ["X" if plain_sum(vin) % 11 == 10 else str(plain_sum(vin) % 11) for vin in vins]
    assert due == plain
    assert "X" in due


def test_blind_spot() -> None:
    """Of all 512 one-sign misreadings of a VIN no digit tells 32: a letter read as its twin."""
    vin = "ZZZAB12C4T1000123"
    signs = "0123456789" + "".join(LETTER_VALUES)
    changed = [
        vin[:place] + sign + vin[place + 1 :]
        for place in range(17)
        if place != 8
        for sign in signs
        if sign != vin[place]
    ]
    due = check_digits(pl.Series(changed))
    assert len(changed) == 512
    assert (due == "4").sum() == 32
    assert check_digits(pl.Series(["ZZZAB12C4TJ000123"]))[0] == "4"
