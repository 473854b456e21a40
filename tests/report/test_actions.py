"""Actions on the page: the title by rule, the lines, the table; loud and quiet."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from made_up_follow import action, back
from made_up_shift import quiet_shift

from eol.facts.actions import Action
from eol.report.actions import action_looks, action_table, actions_title
from eol.report.look import Look
from eol.report.panels import panels

NONE = action("CM-2", before=(34, 3589), after=(124, 11148), code="SR-CREAK", title="Creak")
EARLY = action("CM-3", before=(108, 7200), after=(1, 300))
MORE = action("CM-4", before=(34, 3589), after=(40, 1000))


def looks(*actions: Action) -> list[Look]:
    """The lines of a shift with some actions."""
    return list(action_looks(replace(quiet_shift(), actions=actions)))


@pytest.mark.parametrize(
    ("actions", "title"),
    [
        ((), "No action is open"),
        ((action(),), "One action worked"),
        (
            (action(), NONE, EARLY, EARLY),
            "One action worked, one shows no clear change and two are too early to judge",
        ),
        ((EARLY, EARLY), "Two actions are too early to judge"),
        ((action(), MORE), "Mirror does not answer: more since the action"),
        ((action(came_back=back()), MORE), "Mirror does not answer is back: 24 of 1,199"),
    ],
)
def test_title(actions: tuple[Action, ...], title: str) -> None:
    """What came back or grew is named; else the verdicts are counted."""
    assert actions_title(actions) == title


def test_old_verdicts_need_no_look() -> None:
    """What has stood for eight shifts is no line; nor is a closed action."""
    assert looks(action(), NONE, EARLY) == []
    assert looks(replace(MORE, closed_on=date(2026, 9, 17))) == []


def test_new_verdicts_are_lines() -> None:
    """A fresh verdict is asked about, `more` and a return are looked at, dearest first."""
    told = looks(
        replace(action(), fresh=True), replace(NONE, fresh=True), MORE, action(came_back=back())
    )
    told.sort(key=lambda look: -look.cost)
    assert [look.kind for look in told] == ["look", "look", "ask", "ask"]
    assert told[0].head == "Mirror does not answer is back after its action"
    assert told[2].start.startswith("Connector with a latch: 124 of 11,148, before 34 of 3,589")


def test_overdue_action_is_a_line() -> None:
    """An action past its day that has not cut in is told."""
    late = action(from_build_seq=None, due_on=date(2026, 9, 14))
    (look,) = looks(late)
    assert (look.head, look.place) == ("1 action overdue", "t-actions")


def test_table_has_every_action() -> None:
    """Each action is a row with both sides, ratio and verdict; one that has not cut in has no figures."""
    facts = replace(quiet_shift(), actions=(action(), action("CM-X", from_build_seq=None)))
    first, second = action_table(facts).rows
    assert first[5:9] == ("104 of 5,600", "1.86%", "29 of 9,585", "0.30%")
    assert (second[5], second[11]) == ("", "not cut in yet")


@pytest.mark.slow
def test_panel_stands_only_where_there_is_an_action() -> None:
    """Without an action the page has no such panel; without a cut-in it says so in words."""
    assert "p-actions" not in [panel.place for panel in panels(quiet_shift())]
    waits = action(from_build_seq=None)
    panel = panels(replace(quiet_shift(), actions=(waits,)))[-1]
    assert (panel.place, panel.svg, panel.words) == ("p-actions", "", "No action has cut in yet")
