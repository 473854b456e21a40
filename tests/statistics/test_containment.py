"""Containment: the worked example, edges of the record, caution with few units."""

import pytest

from eol.statistics.containment import (
    clean_units_needed,
    lowest_share,
    residual_risk,
    suspect_range,
)


def test_three_leaks_make_55_suspects():
    """Leaks at 1034, 1041, 1052: p = 3/19, m = 18, suspect 1016 to 1070."""
    found = suspect_range(1034, 1052, confirmed=3, units=5000)
    assert (found.share, found.margin) == (3 / 19, 18)
    assert (found.first, found.last, found.units) == (1016, 1070, 55)
    assert (found.first_reason, found.last_reason) == ("margin", "margin")


def test_a_known_change_cuts_the_range_short():
    """The nozzle changed at 1058: the unit at the change is the last suspect one, 43 units."""
    found = suspect_range(1034, 1052, confirmed=3, units=5000, change_after=1058)
    assert (found.last, found.units, found.last_reason) == (1058, 43, "known change")
    before = suspect_range(1034, 1052, confirmed=3, units=5000, change_before=1030)
    assert (before.first, before.first_reason) == (1030, "known change")


def test_a_change_beyond_the_margin_does_not_lengthen_the_range():
    """The margin ends the doubt before the change."""
    found = suspect_range(1034, 1052, confirmed=3, units=5000, change_after=2000)
    assert (found.last, found.last_reason) == (1070, "margin")


def test_residual_risk_after_a_pass():
    """0.93 % where the test sees 95 %, 10.9 % where it sees 35 %."""
    found = [round(100 * residual_risk(3 / 19, s), 2) for s in (0.95, 0.35)]
    assert found == [0.93, 10.86]


@pytest.mark.parametrize(
    ("confirmed", "last", "safety"), [(1, 10, False), (2, 30, False), (5, 60, True)]
)
def test_caution_takes_the_lower_bound(confirmed, last, safety):
    """One or two confirmed units, or a safety-related code: the share's 95 % lower bound."""
    found = suspect_range(10, last, confirmed=confirmed, units=5000, safety_related=safety)
    assert found.cautious
    assert found.share == lowest_share(confirmed, last - 9)
    assert found.margin == clean_units_needed(found.share)


def test_one_confirmed_unit_has_a_margin():
    """One unit of one: lower bound 0.05, margin 59."""
    found = suspect_range(100, 100, confirmed=1, units=1000)
    assert (found.margin, found.units) == (59, 119)


def test_all_units_of_the_range_confirmed():
    """Three of three tell no share of 1: the lower bound 0.368 gives a margin of 7."""
    assert suspect_range(100, 102, confirmed=3, units=1000).margin == 7


def test_the_record_ends_the_range():
    """No unit before the first and after the last one on record."""
    found = suspect_range(1, 3, confirmed=1, units=5)
    assert (found.first, found.last) == (0, 4)
    assert (found.first_reason, found.last_reason) == (
        "first unit on record",
        "last unit on record",
    )


def test_residual_risk_at_the_edges():
    """A blind test proves nothing, a perfect one everything."""
    assert residual_risk(0.2, 0) == pytest.approx(0.2)
    assert residual_risk(0.2, 1) == 0
    assert residual_risk(1, 1) == 0
    assert residual_risk(1, 0.5) == 1


def test_impossible_ranges_are_refused():
    """Confirmed units are on record, the first before the last, a change outside them."""
    with pytest.raises(ValueError, match="on record"):
        suspect_range(10, 5, confirmed=1, units=20)
    with pytest.raises(ValueError, match="lies after it"):
        suspect_range(10, 15, confirmed=3, units=20, change_after=12)
    with pytest.raises(ValueError, match="above 0"):
        clean_units_needed(0)
