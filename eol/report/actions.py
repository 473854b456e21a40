"""The actions of a page: their title by rule, their tables, and the lines that need a look."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from eol.facts.action_words import (
    adjusted_words,
    naive_words,
    ratio_words,
    sentences,
    side_words,
    verdict_words,
)
from eol.facts.actions import Action
from eol.facts.shift import ShiftFacts
from eol.report.formats import in_words, listed, percent, sentence
from eol.report.look import Look
from eol.report.table import Table
from eol.words import counted

_SAYS = {
    "fewer": ("worked", "worked"),
    "more": ("shows more", "show more"),
    "no clear change": ("shows no clear change", "show no clear change"),
    "too early": ("is too early to judge", "are too early to judge"),
    "no baseline": ("has no baseline", "have no baseline"),
    "not cut in yet": ("has not cut in", "have not cut in"),
}


def actions_title(actions: Sequence[Action]) -> str:
    """Return what came back or grew, else how many actions stand at which verdict."""
    for action in actions:
        if action.back and action.came_back:
            return f"{_name(action)} is back: {side_words(action.came_back.side)}"
    for action in actions:
        if action.surely_more:
            return f"{_name(action)}: more since the action"
    told = Counter(action.verdict for action in actions)
    parts = [
        f"{in_words(told[verdict])} {says[told[verdict] > 1]}"
        for verdict, says in _SAYS.items()
        if told[verdict]
    ]
    if not parts:
        return "No action is open"
    first, *rest = parts
    noun = "action" if first.split(" ")[0] == "one" else "actions"
    number, verb = first.split(" ", 1)
    return sentence(listed([f"{number} {noun} {verb}", *rest]))


def action_looks(facts: ShiftFacts) -> Iterator[Look]:
    """Give a line for each action that is back, surely more, newly decided or overdue."""
    day = facts.header.production_date
    for action in facts.actions:
        if action.closed_on is None:
            yield from _looks(action)
    late = [action for action in facts.actions if action.overdue(day)]
    if late:
        first = late[0]
        head = f"{counted(len(late), 'action')} overdue"
        start = f"{first.action_id} {first.what}: due {first.due_on}, not cut in."
        yield Look("ask", 24, head, start, "t-actions")


def _looks(action: Action) -> Iterator[Look]:
    back = action.came_back
    if action.back and back:
        head = f"{_name(action)} is back after its action"
        start = f"{action.code}: {side_words(back.side)} since {back.since.name}, "
        start += f"before the action {side_words(action.baseline.used)}. {action.what}"
        yield Look("look", 48, head, start, "p-actions")
    elif action.surely_more:
        head = f"{_name(action)}: more since its action"
        yield Look("look", 44, head, _sides(action), "p-actions")
    elif action.fresh and action.verdict == "no clear change":
        naive = next(naive_words(action), "Look for another cause, or another remedy.")
        head = f"{_name(action)}: no clear change by its action"
        yield Look("ask", 32, head, f"{_sides(action)} {naive}", "p-actions")
    elif action.fresh and action.verdict == "fewer":
        head = f"{_name(action)}: the action worked"
        start = f"{_sides(action)} Close it; could it help elsewhere?"
        yield Look("ask", 12, head, start, "p-actions")


def _sides(action: Action) -> str:
    before, after = side_words(action.baseline.used), side_words(action.after)
    what = f"{action.what}: " if action.what else ""
    return f"{what}{after}, before {before}, ratio {ratio_words(action.effect)}."


def _name(action: Action) -> str:
    return action.title or action.code


def action_table(facts: ShiftFacts) -> Table:
    """Return the register with figures and remarks."""
    columns: tuple[str, ...] = ("action", "code", "what is done", "owner", "from unit", "before")
    columns += ("per 100", "after", "per 100", "ratio", "adjusted", "verdict", "remarks")
    rows = tuple(_row(action, facts) for action in facts.actions)
    note = (
        "By build sequence, 95% intervals. Before: back to the last action on the code, the shifts "
    )
    note += "that may have triggered it left out. Adjusted: what comes back to the usual by itself "
    note += "taken out (empirical Bayes)."
    return Table("t-actions", "Countermeasures", columns, rows, frozenset(range(4, 9)), note)


def _row(action: Action, facts: ShiftFacts) -> tuple[str, ...]:
    before, after = action.baseline.used, action.after
    figures = ("", "", "", "", "", "")
    if action.cut_in:
        figures = (
            side_words(before),
            percent(before.share, 2),
            side_words(after),
            percent(after.share, 2),
            ratio_words(action.effect),
            adjusted_words(action.shrunk),
        )
    closed = f"; closed {action.closed_on}" if action.closed_on else ""
    return (
        action.action_id,
        action.code + (f" {action.zone}" if action.zone else ""),
        action.what,
        action.owner,
        str(action.from_build_seq or ""),
        *figures,
        verdict_words(action) + closed,
        " ".join(sentences(action, day=facts.header.production_date)),
    )
