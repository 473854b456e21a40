"""Shares: edges, refusals and a second opinion."""

import subprocess
import sys

import pytest
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

from eol.statistics.interval import Interval
from eol.statistics.proportion import (
    clopper_pearson,
    highest_share_without_failure,
    newcombe_difference,
    wilson,
)


@pytest.mark.parametrize("interval", [wilson, clopper_pearson])
def test_no_unit_gives_no_share(interval):
    """FTT is null when no unit was tested (rule 9)."""
    assert interval(0, 0) == Interval(0, None, None, None)


@pytest.mark.parametrize("interval", [wilson, clopper_pearson])
@pytest.mark.parametrize("n", [1, 2, 400, 100_000])
def test_none_and_all_end_exactly_at_0_and_1(interval, n):
    """All failed and all passed are ordinary shifts."""
    none, every = interval(0, n), interval(n, n)
    assert (none.value, none.low) == (0.0, 0.0)
    assert (every.value, every.high) == (1.0, 1.0)
    assert 0 < none.high <= 1
    assert 0 <= every.low < 1


@pytest.mark.parametrize(("interval", "method"), [(wilson, "wilson"), (clopper_pearson, "beta")])
def test_interval_agrees_with_a_second_opinion(interval, method):
    """Statsmodels gives the same ends over a spread of shares."""
    for successes, n in [(1, 1), (3, 7), (371, 400), (1, 9000)]:
        found = interval(successes, n)
        ends = proportion_confint(successes, n, alpha=0.05, method=method)
        assert (found.low, found.high) == pytest.approx(ends, abs=1e-12)


def test_newcombe_difference_agrees_with_a_second_opinion():
    """Statsmodels calls the hybrid score interval "newcomb"."""
    ends = confint_proportions_2indep(31, 400, 55, 380, method="newcomb", compare="diff")
    found = newcombe_difference((31, 400), (55, 380))
    assert (found.low, found.high) == pytest.approx(ends, abs=1e-9)


def test_newcombe_difference_without_units_is_none():
    """A period without units has no difference from another."""
    assert newcombe_difference((0, 0), (3, 9)) == Interval(9, None, None, None)


def test_nothing_looked_at_allows_every_share():
    """No unit looked at proves nothing; one unit proves little."""
    assert highest_share_without_failure(0) == 1
    assert highest_share_without_failure(1) == pytest.approx(0.95)


@pytest.mark.parametrize(("successes", "n"), [(-1, 5), (6, 5), (0, -1)])
def test_impossible_share_is_refused(successes, n):
    """More successes than units is the caller's mistake, told in words."""
    with pytest.raises(ValueError, match="units"):
        wilson(successes, n)


def test_impossible_confidence_is_refused():
    """A confidence of 95 is meant as 0.95 and must not pass."""
    with pytest.raises(ValueError, match="between 0 and 1"):
        clopper_pearson(1, 5, confidence=95)


def test_the_interval_of_every_ftt_needs_no_heavy_library():
    """Rule 16's interval is plain arithmetic: NumPy and SciPy stay out until asked for."""
    code = "import sys; from eol.statistics.proportion import wilson; wilson(3, 9);"
    code += "print('numpy' in sys.modules, 'scipy' in sys.modules)"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.split() == ["False", "False"]
