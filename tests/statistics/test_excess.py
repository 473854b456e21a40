"""Excess defects: edges."""

import pytest

from eol.statistics.excess import Excess, excess_defects


def test_excess_within_strata_is_not_the_crude_one():
    """A lot that came on bad nights explains nothing within them."""
    nights, days = [[40, 360], [40, 360]], [[1, 99], [9, 891]]
    assert excess_defects([nights, days]).excess == pytest.approx(0)
    assert excess_defects([[[41, 459], [49, 1251]]]).excess > 20


@pytest.mark.parametrize("tables", [[], [[[0, 0], [0, 0]]], [[[0, 9], [0, 9]]]])
def test_no_defect_explains_nothing(tables):
    """No table, no unit, no defect: nothing to explain."""
    assert excess_defects(tables) == Excess(0.0, 0.0, 0.0, None)


def test_an_attribute_that_every_unit_has_explains_nothing():
    """Without a rest there is no expectation but the defects themselves."""
    assert excess_defects([[[7, 93], [0, 0]]]) == Excess(7.0, 7.0, 0.0, 0.0)


def test_a_single_table_needs_its_stratum():
    """One table is given as one stratum."""
    with pytest.raises(ValueError, match="strata, 2, 2"):
        excess_defects([[1, 2], [3, 4]])
