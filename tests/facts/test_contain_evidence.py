"""What is known of a unit, what a pass of it proves, and where it is."""

from __future__ import annotations

import pytest

from eol.facts import contain_evidence as ev
from eol.facts.reader import Row

ROW: Row = {
    "attempts": 1,
    "last_result": "pass",
    "unchecked": False,
    "voids": 0,
    "station": "W",
    "bay": "A",
}


@pytest.mark.parametrize(
    ("more", "confirmed", "repaired", "evidence"),
    [
        ({}, False, False, ev.PASSED),
        ({"unchecked": True}, False, False, ev.UNCHECKED),
        ({"last_result": "fail"}, False, False, ev.FAILED),
        ({"attempts": 0}, False, False, ev.UNTESTED),
        ({"attempts": 0, "voids": 2}, False, False, ev.VOID),
        ({"last_result": "fail"}, True, True, ev.CONFIRMED),
        ({}, True, False, ev.CONFIRMED),
        ({}, True, True, ev.MENDED),
    ],
)
def test_evidence(more: Row, confirmed: bool, repaired: bool, evidence: str) -> None:
    """A pass after a fault without a repair takes nothing back."""
    assert ev.evidence_of(ROW | more, confirmed=confirmed, repaired=repaired) == evidence


def test_risk() -> None:
    """After a pass p (1 - s) / (1 - p s); a bay that failed its check, or has none, is not credited."""
    sight = ev.Sight(None, {("W", "A"): (40, 40), ("W", "B"): (4, 0)})
    told = [ev.risk_of(ROW | {"bay": bay}, ev.PASSED, 0.1, sight) for bay in ("A", "B", "C")]
    assert told == [pytest.approx(0.0079, abs=0.0001), 0.1, 0.1]
    assert ev.risk_of(ROW | {"unchecked": True}, ev.UNCHECKED, 0.1, sight) == 0.1
    assert ev.risk_of(ROW, ev.UNTESTED, 0.1, sight) == 0.1
    assert ev.risk_of(ROW, ev.CONFIRMED, 0.1, sight) is None
    assert ev.risk_of(ROW, ev.PASSED, None, sight) is None


def test_given_sensitivity_is_for_the_bay_asked_about() -> None:
    """With a bay it says nothing of the others; without one it holds everywhere."""
    checks = {("W", "A"): (40, 40)}
    here = ev.Sight(0.35, checks, ("W", "B"))
    assert here.of("W", "B", unchecked=True) == 0.35
    assert here.of("W", "A", unchecked=False) == pytest.approx(0.928, abs=0.001)
    assert ev.Sight(0.35, checks).of("W", "A", unchecked=False) == 0.35


def test_place_words() -> None:
    """The newest move and place, else where it was tested, else nothing."""
    assert ev.place_words("ship", "on the road", "W") == "shipped, on the road"
    assert ev.place_words("move", "repair: water", "W") == "repair: water"
    assert ev.place_words(None, None, "W") == "last seen at W"
    assert ev.place_words(None, None, None) is None
