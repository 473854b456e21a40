"""The defects of a shift by code."""

from __future__ import annotations

import pytest
from made_up_shift import LOUD_CODES, code, pareto

from eol.facts.changed import CodeSeries
from eol.facts.pareto import usual_counts


def test_most_frequent_first_ties_by_code() -> None:
    """Codes come by their defects, those with as many by name."""
    made = pareto(code("water", "C", "", 3), code("water", "B", "", 5), code("water", "A", "", 3))
    assert [row.code for row in made.rows] == ["B", "A", "C"]


def test_grave_codes_are_never_folded_away() -> None:
    """A severity-A or safety-related code is drawn whatever its count."""
    made = pareto(*LOUD_CODES)
    assert len(made.shown) == 8
    assert made.shown[-1].code == "EL-ISO"
    assert [row.code for row in made.others] == ["UNSPECIFIED", "WL-TAIL", "SR-PARCEL"]


def test_more_than_eight_grave_codes_are_all_drawn() -> None:
    """Nine safety-related codes make nine rows."""
    made = pareto(*(code("water", f"W{n}", "", 1, "C", safety=True) for n in range(9)))
    assert len(made.shown) == 9


def test_running_shares_of_all_defects() -> None:
    """The running share is of all defects of the shift; the drawn and the others make it whole."""
    made = pareto(*LOUD_CODES)
    rest = sum(row.defects for row in made.others)
    assert made.running_shares()[0] == pytest.approx(19 / 65)
    assert made.running_shares()[-1] == pytest.approx((65 - rest) / 65)


def test_code_without_a_defect_is_no_row() -> None:
    """A code with a count of 0 is not listed."""
    assert pareto(code("water", "A", "", 0)).rows == ()


def test_usual_count_of_a_code() -> None:
    """Shifts without the code count as 0, and the present shift is left out."""
    found = CodeSeries("water", "A", (0,) * 20 + (40,), (400,) * 21)
    usual = usual_counts([found])["water", "A"]
    assert usual is not None
    assert (usual.low, usual.high) == (0.0, pytest.approx(1.0))


def test_usual_count_is_of_the_units_at_risk() -> None:
    """Twice the units that can have a code may have twice as many (rule 10)."""
    few = CodeSeries("water", "A", (4,) * 20 + (8,), (100,) * 21)
    many = CodeSeries("water", "B", (4,) * 20 + (8,), (100,) * 20 + (200,))
    usual = usual_counts([few, many])
    assert usual["water", "A"] is not None
    assert usual["water", "B"] is not None
    assert usual["water", "B"].centre == 2 * usual["water", "A"].centre


def test_count_over_its_usual_range_is_told() -> None:
    """A count speaks up only above its range, not on its end."""
    made = pareto(code("w", "A", "", 7, usual=(0, 6)), code("w", "B", "", 6, usual=(0, 6)))
    assert [row.above_usual for row in made.rows] == [True, False]
