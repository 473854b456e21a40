"""Actions before and after."""

from __future__ import annotations

from chart_rows import chart_rows
from made_up_follow import action

from eol.figures.actions import SHOWN, action_chart, shown_actions


def test_both_sides_have_a_mark_and_the_verdict_words() -> None:
    """An open mark before, a filled one after, each with its interval; the verdict stands beside them."""
    rows = chart_rows(action_chart([action()]).to_dict())
    marks = {row["when"]: row for row in rows if "when" in row}
    assert set(marks) == {"before", "after"}
    assert marks["after"]["low"] < marks["after"]["share"] < marks["after"]["high"]
    assert {row["verdict"] for row in rows if "verdict" in row} == {"fewer"}


def test_side_without_units_has_no_mark() -> None:
    """An action that has just cut in shows what was before."""
    rows = chart_rows(action_chart([action(after=(0, 0))]).to_dict())
    assert {row["when"] for row in rows if "when" in row} == {"before"}


def test_zero_on_both_sides_is_drawn() -> None:
    """No defect at all draws marks at 0, and no error."""
    assert action_chart([action(before=(0, 900), after=(0, 300))]).to_dict()["layer"]


def test_latest_are_shown_at_most_five() -> None:
    """Of many the five that cut in last; those that have not cut in are left out."""
    many = [action(f"CM-{at}", from_build_seq=100 + at) for at in range(9)]
    shown = shown_actions([*many, action("CM-X", from_build_seq=None)])
    assert [one.action_id for one in shown] == [f"CM-{at}" for at in range(8, 8 - SHOWN, -1)]
