"""Usual ranges of the page."""

from __future__ import annotations

import pytest

from eol.facts.limits import Usual, rate_range, share_range, value_range


def test_too_few_shifts_give_no_range() -> None:
    """With fewer than 12 settled shifts there is no usual range at all."""
    assert share_range([9] * 11, [10] * 11, present=10) is None
    assert rate_range([1] * 11, [10] * 11, present=10) is None
    assert value_range([0.9] * 11) is None


def test_present_units_set_the_width() -> None:
    """The range of a share comes from the earlier shifts, its width from the present units."""
    narrow = share_range([360] * 12, [400] * 12, present=400)
    wide = share_range([360] * 12, [400] * 12, present=100)
    assert narrow is not None
    assert wide is not None
    assert narrow.centre == wide.centre == pytest.approx(0.9)
    assert wide.low < narrow.low < 0.9


def test_nothing_present_has_no_range() -> None:
    """A shift without a unit has nothing that could be usual."""
    assert share_range([360] * 12, [400] * 12, present=0) is None


def test_range_in_another_measure() -> None:
    """A range per unit becomes one per hundred, with the same shifts behind it."""
    assert Usual(0.5, 1.0, 2.0, 20).times(100) == Usual(50.0, 100.0, 200.0, 20)


def test_ends_belong_to_the_range() -> None:
    """A value on a limit is usual."""
    usual = Usual(0.5, 1.0, 2.0, 20)
    assert [usual.holds(value) for value in (0.5, 2.0, 2.1)] == [True, True, False]
