"""Verdicts on a published comparison of rates."""

import pytest

from eol.statistics.effect import judge_action, units_still_needed


def test_judge_action_on_rs_example():
    """11 in 800 against 21 in 3,011 (R's help of poisson.test): 1.97, from 0.858 to 4.277.

    The interval holds 1 and excludes 0.5: no clear change.
    """
    found = judge_action((11, 800), (21, 3011))
    assert (found.ratio, found.low, found.high) == pytest.approx(
        (1.97149, 0.85843, 4.27727), abs=1e-5
    )
    assert found.words == "no clear change"


def test_units_still_needed_by_the_exact_interval_of_zero():
    """With no defect after, the exact test is decided once (t/(t+u))^n < 0.025 (n before).

    Przyborowski and Wilenski 1940: for 20 defects in 1,000 units, p of a zero is (1000/(1000+u))^20.
    """
    nearly_none = units_still_needed((0, 0), (20, 1000), expected_ratio=1e-9)
    assert nearly_none == pytest.approx(1000 * (0.025 ** (-1 / 20) - 1), abs=1)
