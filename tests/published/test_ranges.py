"""Ranges of a number against the seals that fail when cold."""

import pytest

from eol.statistics.ranges import best_range

# S. R. Dalal, E. B. Fowlkes, B. Hoadley, Journal of the American Statistical Association 84 (1989),
# pages 945-957: temperature (°F) of 23 launches and whether a seal was damaged (from memory).
DAMAGED = [53, 57, 58, 63, 70, 70, 75]
WHOLE = [66, 67, 67, 67, 68, 69, 70, 70, 72, 73, 75, 76, 76, 78, 79, 81]


def test_best_range_of_the_cold_launches():
    """All four launches below 65 °F were damaged, three of 19 above: the range ends at 63."""
    found = best_range(DAMAGED + WHOLE, [1] * 7 + [0] * 16)
    assert (found.low, found.high, found.defects, found.units) == (None, 63, 4, 4)
    assert found.expected == pytest.approx(4 * 7 / 23)
    assert found.p < 0.05
