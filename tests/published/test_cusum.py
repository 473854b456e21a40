"""Poisson CUSUM against Lucas."""

import pytest

from eol.statistics.cusum import design_cusum, poisson_cusum, reference_value, run_length


def test_reference_value_is_lucas():
    """Means 4 and 7 give 5.36: J. M. Lucas, Technometrics 27 (1985), from memory, reproduced."""
    assert reference_value(4, 7) == pytest.approx(5.36082087867, abs=1e-5)


@pytest.mark.parametrize(("mean", "length"), [(4, 421.65), (7, 5.59435)])
def test_run_length_of_k_5_h_10(mean, length):
    """Lucas' design for 4 against 7; run lengths by an exact chain (calculated, 2 to 5 digits)."""
    assert run_length(mean, k=5, h=10) == pytest.approx(length, rel=1e-5)


def test_design_cusum_finds_lucas_threshold():
    """With k fixed near 5.36 a run of 400 shifts needs an h below the 10 of k = 5."""
    design = design_cusum(4, 7, shifts_between_false=400)
    assert design.k == pytest.approx(5.36, abs=0.03)
    assert 7 < design.h < 10
    assert design.run_length >= 400


def test_poisson_cusum_adds_what_exceeds_k():
    """Page's rule S = max(0, S + x - k), by hand: 7 7 3 8 with k 5 gives 2 4 2 5."""
    assert poisson_cusum([7, 7, 3, 8], k=5, h=10).sums == (2, 4, 2, 5)
