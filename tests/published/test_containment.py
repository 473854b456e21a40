"""Margins and residual risk against printed plans."""

import pytest

from eol.statistics.containment import (
    clean_units_needed,
    lowest_share,
    residual_risk,
    suspect_range,
)


@pytest.mark.parametrize(("share", "units"), [(0.01, 299), (0.02, 149), (0.05, 59), (0.1, 29)])
def test_clean_units_needed_is_the_zero_failure_plan(share, units):
    """299, 149, 59, 29 units for 95 %: printed in every table of such plans (from memory)."""
    assert clean_units_needed(share) == units


def test_lowest_share_is_clopper_and_pearsons():
    """Newcombe 1998, Table I: 81 of 263 has 0.2527 as exact lower end at 97.5 % one-sided."""
    assert lowest_share(81, 263, confidence=0.975) == pytest.approx(0.2527, abs=1e-4)


def test_residual_risk_is_one_less_the_negative_predictive_value():
    """D. G. Altman and J. M. Bland, BMJ 309 (1994), page 102 (from memory): liver scans.

    Of 344 patients 258 are abnormal; sensitivity 231/258; of 86 normal ones specificity 54/86.
    With perfect specificity the share of 27 missed among those passed is 27/(344 - 231).
    """
    assert residual_risk(258 / 344, 231 / 258) == pytest.approx(27 / (344 - 231))


def test_suspect_range_spans_the_zero_failure_plan():
    """A fault of one unit in twenty (59 clean units needed) is suspect 59 units either way."""
    found = suspect_range(1000, 1039, confirmed=3, units=5000)
    assert found.margin == clean_units_needed(3 / 40)
    wide = suspect_range(1000, 1059, confirmed=3, units=5000)
    assert (wide.first, wide.last) == (1000 - 59, 1059 + 59)
