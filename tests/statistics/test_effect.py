"""Verdicts: the worked examples and the edges."""

import pytest

from eol.statistics.effect import judge_action, units_still_needed
from eol.statistics.rate import rate_ratio


def test_the_action_that_worked():
    """108/6,400 → 24/9,600: ratio 0.15 (0.09-0.23), fewer."""
    found = judge_action((24, 9600), (108, 6400))
    assert [round(x, 2) for x in (found.ratio, found.low, found.high)] == [0.15, 0.09, 0.23]
    assert found.words == "fewer"


def test_the_action_that_did_not():
    """108/7,200 → 142/8,800: ratio 1.08, no clear change."""
    found = judge_action((142, 8800), (108, 7200))
    assert round(found.ratio, 2) == 1.08
    assert found.words == "no clear change"


def test_an_action_that_made_it_worse():
    """The interval lies above 1."""
    assert judge_action((60, 1000), (20, 1000)).verdict == "more"


def test_too_early_says_how_many_more_units():
    """After so many more units as said, with half the rate, the verdict is `fewer`."""
    found = judge_action((1, 300), (108, 7200))
    assert found.verdict == "too early"
    units = 300 + found.more_units
    defects = int(1 + found.more_units * 0.5 * 108 / 7200)
    assert rate_ratio((defects, units), (108, 7200)).high < 1


def test_expected_ratio_decides_between_too_early_and_no_clear_change():
    """The interval 0.6 to 1.5 excludes a half but not four fifths."""
    after, before = (40, 1000), (42, 1000)
    assert judge_action(after, before).verdict == "no clear change"
    assert judge_action(after, before, expected_ratio=0.8).verdict == "too early"


@pytest.mark.parametrize(
    ("after", "before", "words"),
    [
        ((0, 0), (0, 0), "no baseline"),
        ((5, 100), (0, 0), "no baseline"),
        ((0, 0), (0, 400), "too early"),
        ((0, 400), (0, 400), "too early"),
        ((0, 0), (108, 7200), "too early: about 1,141 more units"),
    ],
)
def test_nothing_before_or_after(after, before, words):
    """No baseline, no unit yet, no defect ever: a result in words."""
    assert judge_action(after, before).words == words


def test_a_baseline_with_few_defects_can_never_tell():
    """Two defects before: no number of units shows a halving."""
    assert units_still_needed((0, 10), (2, 900)) is None
    assert judge_action((0, 10), (2, 900)).words == "too early"


def test_an_expected_ratio_above_one_is_refused():
    """An action is meant to lower the rate."""
    with pytest.raises(ValueError, match="between 0 and 1"):
        judge_action((1, 10), (2, 10), expected_ratio=2)
