"""Ranges of a number: ties, strata, edges."""

import numpy as np
import pytest

from eol.statistics.ranges import best_range


def test_thin_beads_are_found():
    """Below 4.8 mm ten percent leak, else a third of a percent: the range ends near 4.8."""
    rng = np.random.default_rng(81)
    bead = rng.uniform(4, 7, 6000)
    leak = rng.random(6000) < np.where(bead < 4.8, 0.1, 0.003)
    found = best_range(bead, leak)
    assert found.low is None or found.low < 4.1
    assert found.high == pytest.approx(4.8, abs=0.1)
    assert found.p == 0.001


def test_equal_values_are_never_parted():
    """Set points: all units of a value are in or out."""
    values, defect = [5.0] * 10 + [6.0] * 30, [1, 1, 1] + [0] * 7 + [1] + [0] * 29
    found = best_range(values, defect)
    assert (found.defects, found.units) == (3, 10)


def test_what_differs_between_shifts_only_is_silent():
    """Cold nights leak more; within a shift the temperature does not matter."""
    rng = np.random.default_rng(82)
    night = np.repeat([0, 1], 1000)
    temperature = rng.normal(20, 1, 2000) - 8 * night
    defect = rng.random(2000) < np.where(night, 0.05, 0.005)
    assert best_range(temperature, defect).p < 0.01
    assert best_range(temperature, defect, stratum=night).p > 0.05


@pytest.mark.parametrize("defect", [[0, 0, 0], [1, 0, 0], [1, 1, 1]])
def test_nothing_to_find(defect):
    """No defect, one, or all: no range."""
    assert best_range([1.0, 2.0, 3.0], defect) is None


def test_one_value_throughout_has_no_range():
    """A number that never differs has no range."""
    assert best_range([4.0] * 50, [1] * 5 + [0] * 45) is None


def test_no_unit():
    """An attribute nobody has yet."""
    assert best_range([], []) is None


def test_a_missing_value_is_refused():
    """Units without the number are left out by the caller."""
    with pytest.raises(ValueError, match="must be numbers"):
        best_range([float("nan"), 1.0], [1, 0])
