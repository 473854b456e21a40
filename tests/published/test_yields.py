"""Rolled throughput yield against a printed example."""

from math import exp

import pytest

from eol.statistics.yields import rolled_yield


def test_rolled_yield_of_three_steps():
    """Defects per unit 0.1, 0.05, 0.008 give 0.853850 (six-sigma teaching article, 2004, read).

    The article prints 0.904834 for exp(-0.1), a slip of typing; its product is right.
    """
    found = rolled_yield([exp(-dpu) for dpu in (0.1, 0.05, 0.008)])
    assert found == pytest.approx(0.853850, abs=5e-6)
