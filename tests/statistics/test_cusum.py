"""Poisson CUSUM: restart, varying units at risk, design, and a second opinion by simulation."""

import numpy as np
import pytest

from eol.statistics.cusum import design_cusum, poisson_cusum, reference_value, run_length


def test_it_starts_again_after_a_signal():
    """After a signal the sum begins at 0, and the rise's first shift is told."""
    trace = poisson_cusum([0, 3, 3, 0, 3, 3], k=1, h=4)
    assert trace.signals == (2, 5)
    assert trace.starts == (1, 4)
    assert trace.sums[2] == 4
    assert trace.sums[3] == 0


def test_reference_follows_the_units_at_risk():
    """Half the units allow half the defects."""
    trace = poisson_cusum([2, 2], k=[2.0, 1.0], h=9)
    assert trace.sums == (0, 1)


def test_no_shift_gives_an_empty_trace():
    """A code without history has nothing to sum."""
    assert poisson_cusum([], k=1, h=4).signals == ()


def test_run_length_agrees_with_a_simulation():
    """A plain simulation of 1,000 runs gives the chain's length within its error."""
    draws = np.random.default_rng(5).poisson(1.2, size=(1000, 1500))
    total, lengths = np.zeros(1000), np.full(1000, 1500)
    for shift in range(1500):
        total = np.maximum(0, total + draws[:, shift] - 2)
        lengths = np.where((total >= 4) & (lengths == 1500), shift + 1, lengths)
    expected = run_length(1.2, k=2, h=4)
    assert lengths.mean() == pytest.approx(expected, rel=0.1)


def test_design_is_the_smallest_threshold_that_holds():
    """One step less on the grid would signal too often."""
    design = design_cusum(0.4, 1.2, shifts_between_false=8000)
    assert design.run_length >= 8000
    assert design.k == pytest.approx(5 / 7)
    assert run_length(0.4, k=design.k, h=design.h - 1 / 7) < 8000


@pytest.mark.parametrize("usual", [0.001, 0.05, 1, 20])
def test_design_holds_for_rare_and_common_codes(usual):
    """Every code of a list of twenty can be watched."""
    design = design_cusum(usual, 3 * usual, shifts_between_false=8000)
    assert np.isfinite(design.run_length)
    assert design.run_length >= 8000


def test_a_fall_can_be_referenced_too():
    """The reference value lies between the means whichever is larger."""
    assert reference_value(7, 4) == pytest.approx(reference_value(4, 7))


def test_impossible_designs_are_refused():
    """A feared mean below the usual one is the caller's mistake."""
    with pytest.raises(ValueError, match="above the usual one"):
        design_cusum(4, 2, shifts_between_false=400)
    with pytest.raises(ValueError, match="one k, or one a shift"):
        poisson_cusum([1, 2, 3], k=[1, 2], h=4)
