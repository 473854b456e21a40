"""Actions in words."""

from __future__ import annotations

from dataclasses import replace

import pytest
from made_up_follow import action, back

from eol.facts.action_sides import Baseline, ShiftSide, Side
from eol.facts.action_words import record, sentences, verdict_words
from eol.statistics.before_after import BeforeAfter
from eol.statistics.effect import judge_action
from eol.statistics.mix import Mix


@pytest.mark.parametrize(
    ("after", "before", "words"),
    [
        ((1, 300), (108, 7200), "too early: about 412 more units"),
        ((0, 300), (0, 900), "too early: too few before to tell"),
        ((24, 9600), (108, 6400), "fewer"),
    ],
)
def test_verdict(after: tuple[int, int], before: tuple[int, int], words: str) -> None:
    """Too early says how many more units are needed, or that none would do."""
    assert verdict_words(action(before=before, after=after)) == words


def test_return_is_said_with_the_verdict() -> None:
    """A code that is back is told in the verdict and in a sentence; an old return in the sentence alone."""
    assert verdict_words(action(came_back=back())) == "fewer, but back"
    assert verdict_words(action(came_back=back(last=20))) == "fewer"
    assert sentences(action(came_back=back())) == (
        "It came back: 24 of 1,199 since 2026-09-17/night.",
    )


def test_plain_sum_is_explained_only_where_it_differs() -> None:
    """The shift that triggered it is named where it alone would give another verdict."""
    trigger = ShiftSide((action().opened_on, "night"), Side(400, 12))  # type: ignore[arg-type]
    one = action(before=(34, 3589), after=(124, 11148), alone=judge_action((124, 11148), (12, 400)))
    base = Baseline(Side(3589, 34), frozenset(), (trigger,))
    assert "(12 of 400) it would seem to work" in sentences(replace(one, baseline=base))[0]
    same = replace(one, baseline=base, alone=one.effect)
    assert sentences(same) == ()


def test_change_by_what_was_built_is_said() -> None:
    """Where most of a change is mix the words doubt that the action did it; where it is process they do not."""
    mostly = Mix(0.08, 0.04, -0.04, -0.03, -0.01, ())
    (words,) = sentences(action(mix=mostly))
    assert (
        words == "Other models were built: -3.00 of -4.00 per hundred units are mix, not process."
    )
    assert sentences(action(mix=replace(mostly, mix=-0.01, process=-0.03))) == ()
    assert record(action(mix=mostly))["mix"] == {
        "difference": -0.04,
        "mix": -0.03,
        "process": -0.01,
    }
    assert record(action())["mix"] is None


def test_adjusted_ratio_that_holds_one_is_said() -> None:
    """A verdict that the adjusted ratio does not bear out is doubted in words."""
    doubtful = BeforeAfter(2.92, 0.82, 5.02, 2.7, 0.02)
    one = action(before=(103, 14282), after=(8, 378), shrunk=doubtful)
    assert (one.verdict, one.surely_more) == ("more", False)
    assert sentences(one)[0].startswith("The adjusted ratio holds 1")


def test_two_actions_at_one_unit() -> None:
    """Actions that cut in together cannot be told apart, and the words say so."""
    told = record(action(together="CM-2"))["remarks"]
    assert told == ["CM-2 cut in at the same unit: the two cannot be told apart."]
