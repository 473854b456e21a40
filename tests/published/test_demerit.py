"""Demerits with Montgomery's weights."""

import pytest

from eol.statistics.demerit import weigh_demerits


def test_weigh_demerits_uses_100_50_10_1():
    """D = 100A + 50B + 10C + D, variance sum(w² u)/n.

    D. C. Montgomery, "Introduction to Statistical Quality Control", demerit systems (from memory);
    the counts are made up, the figures calculated from the formula.
    """
    weights = {"A": 100.0, "B": 50.0, "C": 10.0, "D": 1.0}
    found = weigh_demerits({"A": 2, "B": 5, "C": 12, "D": 40}, weights, units=200)
    assert (found.demerits, found.per_unit) == (610, 3.05)
    assert found.sigma_per_unit == pytest.approx(0.918422560699, rel=1e-9)
