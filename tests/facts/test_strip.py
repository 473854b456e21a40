"""The headline figures."""

from __future__ import annotations

from typing import Any

import pytest

from eol.facts.ftt import VoidCount
from eol.facts.strip import Figure, Strip, strip_facts


def line(**fields: Any) -> dict[str, Any]:
    """Return one row of `line_by_shift`: 400 built, 360 went through."""
    base = {"built": 400, "went_through": 360, "failed_one": 40, "undecided": 0, "ftt": 0.9}
    base |= {"low": 0.867, "high": 0.926, "worst": 0.9, "best": 0.9, "rty": 0.91}
    base |= {"defects": 44, "dphu": 11.0, "dphu_low": 8.0, "dphu_high": 14.0, "settled": True}
    return base | fields


def made(present: dict[str, Any], **target: float) -> Strip:
    """Return the strip of a shift after twenty usual ones."""
    return strip_facts(
        present,
        [line() for _ in range(20)],
        tested_in_full=398,
        void=[*(VoidCount(4, 1200) for _ in range(20)), VoidCount(40, 1200)],
        target=target,
    )


def test_line_ftt_with_its_parts() -> None:
    """Line FTT is went_through of the decided, with interval, usual range and target."""
    ftt = made(line(), line_ftt=0.95).line_ftt
    assert (ftt.part, ftt.n, ftt.target) == (360, 400, 0.95)
    assert ftt.usual is not None
    assert ftt.usual.centre == pytest.approx(0.9)


def test_target_is_missed_only_by_the_whole_interval() -> None:
    """A figure whose interval reaches the target has not missed it."""
    assert made(line(), line_ftt=0.95).line_ftt.misses_target
    assert not made(line(), line_ftt=0.92).line_ftt.misses_target
    assert not made(line()).line_ftt.misses_target


def test_undecided_cohort_has_no_line_ftt() -> None:
    """While too many units are undecided the figure is null, and is never made up (rule 11)."""
    strip = made(line(ftt=None, low=None, high=None, undecided=60, went_through=310))
    assert (strip.line_ftt.value, strip.undecided) == (None, 60)
    assert not strip.line_ftt.misses_target


def test_void_tests_in_counts() -> None:
    """The usual range of void tests is in tests, for as many units as the shift had."""
    void = made(line()).void_tests
    assert (void.value, void.beyond_usual) == (40.0, True)
    assert void.usual is not None
    assert void.usual.centre == pytest.approx(4.0)


def test_shift_without_a_cohort() -> None:
    """A shift in which no unit left the line has zeros and nulls."""
    strip = made({})
    assert (strip.built, strip.line_ftt.value, strip.rty.value, strip.dphu.value) == (
        0,
        None,
        None,
        None,
    )


def test_figure_speaks_up_at_the_side_that_hurts() -> None:
    """Few defects under their usual range are no alarm."""
    usual = made(line()).dphu.usual
    assert not Figure(0.0, usual=usual, up_is_worse=True).beyond_usual
    assert Figure(99.0, usual=usual, up_is_worse=True).beyond_usual
