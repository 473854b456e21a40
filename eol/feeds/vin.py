"""Vehicle identification numbers: form and check digit, a whole column at a time.

Form: 17 signs, digits and letters without I, O and Q. The check digit is the North American one;
ISO 3779 asks for none, so it rejects only where the plant declares it (rule 17).
"""

from __future__ import annotations

import polars as pl

LETTER_VALUES = {
    **dict(zip("ABCDEFGH", range(1, 9), strict=True)),
    **dict(zip("JKLMN", range(1, 6), strict=True)),
    "P": 7,
    "R": 9,
    **dict(zip("STUVWXYZ", range(2, 10), strict=True)),
}
"""49 CFR 565.15(c), Table III: the value of each letter; a digit has its own."""

WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
"""49 CFR 565.15(c), Table IV: the weight of each place; that of the check digit weighs nothing."""

CHECK_PLACE = 8
"""Index of the check digit: the ninth sign."""

FORM = r"^[A-HJ-NPR-Z0-9]{17}$"
"""What a VIN looks like, in capitals."""

_SPREADSHEET = r"^[0-9]+([.,][0-9]*)?([E][+]?[0-9]+)?$"


def check_digits(vins: pl.Series) -> pl.Series:
    """Return the check digit that each VIN should have at its ninth place.

    Args:
        vins: VINs in capitals, 17 signs each.

    Returns:
        One sign a row, "0" to "9" or "X"; null where the VIN is null or not of the right form.

    Source:
        49 CFR 565.15(c), Tables III to V: weighted sum of the values, remainder of 11, 10 is X.

    Example:
        >>> check_digits(pl.Series(["ZZZ00000?T1000001".replace("?", "0")])).to_list()
        ['6']
    """
    vin = pl.col("vin")
    remainder = _weighted_sum(vin) % 11
    digit = pl.when(remainder == 10).then(pl.lit("X")).otherwise(remainder.cast(pl.String))
    right_form = vin.str.contains(FORM)
    return vins.to_frame("vin").select(pl.when(right_form).then(digit).alias("digit")).to_series()


def vin_faults(vins: pl.Series, *, check_digit: bool) -> pl.DataFrame:
    """Say what is wrong with each VIN that is not of the right form.

    Args:
        vins: VINs in capitals without blanks around them; null is no fault.
        check_digit: whether a wrong check digit is a fault, as the plant declares.

    Returns:
        One row a faulty VIN: `row` (position in the column, from 0) and `reason`.
    """
    frame = vins.to_frame("vin").with_row_index("row")
    vin = pl.col("vin")
    wrong = frame.filter(~vin.str.contains(FORM)).select("row", reason=_form_reason(vin))
    if not check_digit:
        return wrong
    digits = frame.with_columns(due=check_digits(vins), sent=vin.str.slice(CHECK_PLACE, 1))
    misread = digits.filter(pl.col("due") != pl.col("sent")).select("row", reason=_digit_reason())
    return pl.concat([wrong, misread]).sort("row")


def _weighted_sum(vin: pl.Expr) -> pl.Expr:
    values = {str(digit): digit for digit in range(10)} | LETTER_VALUES
    terms = [
        vin.str.slice(place, 1).replace_strict(values, default=0, return_dtype=pl.Int64) * weight
        for place, weight in enumerate(WEIGHTS)
        if weight
    ]
    return pl.sum_horizontal(terms)


def _form_reason(vin: pl.Expr) -> pl.Expr:
    eaten = pl.format(
        "vin: '{}' is a number that a spreadsheet made of a VIN; export the column as text", vin
    )
    length = pl.format("vin: '{}' has {} signs; a VIN has 17", vin, vin.str.len_chars())
    signs = pl.format(
        "vin: '{}' holds '{}'; a VIN has digits and letters only, without I, O and Q",
        vin,
        vin.str.extract(r"([^A-HJ-NPR-Z0-9])"),
    )
    is_eaten = vin.str.contains(_SPREADSHEET) & vin.str.contains("[.,E]")
    return (
        pl.when(is_eaten).then(eaten).when(vin.str.len_chars() != 17).then(length).otherwise(signs)
    )


def _digit_reason() -> pl.Expr:
    return pl.format(
        "vin: '{}' has check digit '{}' where '{}' is due; a sign of it was misread",
        pl.col("vin"),
        pl.col("sent"),
        pl.col("due"),
    )
