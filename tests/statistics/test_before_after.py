"""Empirical-Bayes before-after: regression to the mean and edges."""

import numpy as np
import pytest

from eol.statistics.before_after import BeforeAfter, before_after, expected_count


def test_a_code_picked_for_being_bad_is_expected_to_fall():
    """Chosen at three times its like, unchanged after: the naive ratio falls, this one less."""
    found = before_after((6, 400), (12, 400), mean_rate=0.01, rate_variance=0.005**2)
    assert found.ratio > 6 / 12
    assert 4 < found.foretold < 12


def test_like_that_are_all_the_same_have_all_the_weight():
    """Without variance among its like the own count says nothing."""
    found = expected_count(50, mean=4, variance=0)
    assert (found.value, found.sigma, found.weight) == (4, 0, 1)


def test_no_defect_after_has_an_interval():
    """Zero after: ratio 0 with an upper end above it."""
    found = before_after((0, 400), (12, 400), mean_rate=0.01, rate_variance=0.0001)
    assert (found.ratio, found.low) == (0, 0)
    assert found.high > 0


@pytest.mark.parametrize(("after", "before"), [((0, 0), (5, 9)), ((5, 9), (0, 0))])
def test_no_unit_on_a_side(after, before):
    """Nothing to compare: None, no NaN."""
    found = before_after(after, before, mean_rate=0.1, rate_variance=0.1)
    assert found == BeforeAfter(None, None, None, 0.0, 1.0)


def test_selected_codes_are_judged_fairly():
    """Worst of 20 equal codes, nothing done: over 200 plants the mean ratio is near 1."""
    rng = np.random.default_rng(51)
    ratios = []
    for _ in range(200):
        rates = rng.gamma(4, 0.01 / 4, 20)
        counts = rng.poisson(rates * 400)
        worst = int(counts.argmax())
        after = int(rng.poisson(rates[worst] * 4000))
        found = before_after(
            (after, 4000), (int(counts[worst]), 400), mean_rate=0.01, rate_variance=2.5e-5
        )
        ratios.append(found.ratio)
    assert np.mean(ratios) == pytest.approx(1, abs=0.1)


def test_a_like_without_defects_is_refused():
    """A mean of 0 foretells nothing."""
    with pytest.raises(ValueError, match="must be positive"):
        expected_count(1, mean=0, variance=1)
