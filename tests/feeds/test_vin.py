"""What is wrong with a VIN, in a sentence."""

from __future__ import annotations

import polars as pl
import pytest

from eol.feeds.vin import check_digits, vin_faults


def fault(vin: str, *, check_digit: bool = False) -> str | None:
    """What is said of one VIN."""
    found = vin_faults(pl.Series([vin]), check_digit=check_digit)
    return found["reason"][0] if found.height else None


def test_right_form() -> None:
    """17 digits and letters without I, O and Q are a VIN."""
    assert fault("0ZZKREF0000000001") is None


@pytest.mark.parametrize("sign", ["I", "O", "Q", "-", "Ä"])
def test_sign_that_no_vin_has(sign: str) -> None:
    """The sign is named."""
    assert f"holds '{sign}'" in str(fault("0ZZK00000000000" + sign + "1"))


def test_length() -> None:
    """The number of signs is told."""
    assert fault("0ZZK1") == "vin: '0ZZK1' has 5 signs; a VIN has 17"


@pytest.mark.parametrize("vin", ["1.23E+16", "1,23E+16", "12345678901234500.0", "1E16"])
def test_spreadsheet_made_a_number(vin: str) -> None:
    """A VIN of digits that a spreadsheet took for a number has a sentence of its own."""
    assert "a number that a spreadsheet made of a VIN" in str(fault(vin))


def test_check_digit_rejects_only_where_declared() -> None:
    """ISO 3779 asks for no check digit; a plant that has one says so (rule 17)."""
    assert fault("ZZZ0000001T000001") is None
    assert fault("ZZZ0000051T000001") is None
    assert "has check digit '5' where '6' is due" in str(
        fault("ZZZ000005T1000001", check_digit=True)
    )
    assert fault("ZZZ000006T1000001", check_digit=True) is None


def test_rows_of_faults_keep_their_order() -> None:
    """Faults of form and of check digit come in the order of the rows; null is none."""
    vins = pl.Series(["ZZZ000005T1000001", None, "X", "ZZZ000006T1000001"])
    assert vin_faults(vins, check_digit=True)["row"].to_list() == [0, 2]


def test_no_digit_for_what_is_no_vin() -> None:
    """What has not the form of a VIN has no check digit."""
    assert check_digits(pl.Series(["X", None])).to_list() == [None, None]
