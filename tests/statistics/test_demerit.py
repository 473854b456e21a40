"""Demerits: edges and refusals."""

import pytest

from eol.statistics.demerit import Demerits, weigh_demerits

WEIGHTS = {"A": 100.0, "B": 50.0, "C": 10.0, "D": 1.0}


def test_no_defect_and_no_unit():
    """A shift without defects has no demerits; one without units has no figure per unit."""
    assert weigh_demerits({}, WEIGHTS, units=400) == Demerits(0, 0, 0)
    assert weigh_demerits({}, WEIGHTS, units=0) == Demerits(0, None, None)


def test_a_class_without_weight_is_refused():
    """A defect must not be weighed at nothing in silence."""
    with pytest.raises(ValueError, match="severity without a weight: E"):
        weigh_demerits({"E": 1}, WEIGHTS, units=10)
