"""Actions in words: the verdict, why a plain sum would say otherwise, and what to watch."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import asdict
from datetime import date

from eol.facts.action_sides import LEAST_SHIFTS, Side
from eol.facts.actions import NOT_CUT_IN, Action
from eol.statistics.before_after import BeforeAfter
from eol.statistics.effect import ActionEffect
from eol.words import Answer

QUESTION = "action"
EXACT = "exact conditional rate ratio (Przyborowski and Wilenski 1940)"
KITAGAWA = "Kitagawa, by model, per unit"
HAUER = "empirical-Bayes before-after (Hauer 1997)"
_SEEMS = {"fewer": "work", "more": "make things worse"}


def side_words(side: Side) -> str:
    """Return a side as its counts.

    Example:
        >>> side_words(Side(9600, 24))
        '24 of 9,600'
    """
    return f"{side.with_code:,} of {side.units:,}" if side.units else "no unit"


def ratio_words(effect: ActionEffect) -> str:
    """Return a ratio with its interval; a dash where there is none.

    Example:
        >>> from eol.statistics.effect import judge_action
        >>> ratio_words(judge_action((24, 9600), (108, 6400)))
        '0.15 (0.09–0.23)'
    """
    if effect.low is None:
        return "–"
    ratio = "–" if effect.ratio is None else f"{effect.ratio:.2f}"
    high = "no bound" if effect.high is None else f"{effect.high:.2f}"
    return f"{ratio} ({effect.low:.2f}–{high})"


def adjusted_words(shrunk: BeforeAfter | None) -> str:
    """Return the ratio with regression to the mean taken out; a dash where there is none.

    Example:
        >>> adjusted_words(BeforeAfter(0.167, 0.0987, 0.2354, 171.4, 0.05))
        '0.17 (0.10–0.24)'
    """
    if shrunk is None or shrunk.ratio is None:
        return "–"
    return f"{shrunk.ratio:.2f} ({shrunk.low:.2f}–{shrunk.high:.2f})"


def verdict_words(action: Action) -> str:
    """Return the verdict as it is shown: with the units still needed, and for safety its bound."""
    if not action.cut_in:
        return NOT_CUT_IN
    words = action.effect.words
    if action.effect.verdict == "too early" and action.effect.more_units is None:
        words += ": too few before to tell"
    if action.back:
        words += ", but back"
    return f"{words}; {bound_words(action)}" if action.at_most is not None else words


def bound_words(action: Action) -> str:
    """Return what the units after still allow: `0 in 9,600, at most 1 in 3,205`."""
    after = action.after
    seen = f"{after.with_code:,} in {after.units:,}"
    return f"{seen}, at most 1 in {1 / action.at_most:,.0f}" if action.at_most else seen


def sentences(action: Action, *, day: date | None = None) -> tuple[str, ...]:
    """Return what is to be said of an action beside its row.

    Args:
        action: the action.
        day: the day on which it is told, for what is overdue.
    """
    return tuple(_sentences(action, day))


def _sentences(action: Action, day: date | None) -> Iterator[str]:
    if action.test is None:
        yield f"No test knows the code {action.code}."
    elif day is not None and action.overdue(day):
        yield f"It was due on {action.due_on} and has not cut in."
    if not action.cut_in:
        return
    if action.came_back is not None:
        yield _back(action)
    yield from naive_words(action)
    if action.effect.verdict in _SEEMS:
        yield from _doubts(action)
    if action.effect.verdict == "no baseline":
        yield "No unit before it counts: all were tested in the shifts that may have triggered it."
    if action.transition.units:
        yield f"Apart: {side_words(action.transition)} built while it cut in."
    if action.together is not None:
        yield f"{action.together} cut in at the same unit: the two cannot be told apart."
    if action.safety_related:
        yield "Safety-related: no rate clears a unit; each with a finding needs a release."


def naive_words(action: Action) -> Iterator[str]:
    """Say why a plain sum gives another verdict, where it does."""
    worst, alone = action.baseline.worst, action.alone
    if worst is not None and alone is not None and alone.verdict != action.effect.verdict:
        seems = _SEEMS.get(alone.verdict)
        words = f"Against {worst.name} alone ({side_words(worst.side)}) it would seem to {seems}:"
        words += f" {ratio_words(alone)}. A shift picked for being bad falls back by itself."
        yield from (words,) if seems else ()
    declared, effect = action.baseline.declared, action.on_declared
    if declared is not None and effect is not None:
        yield (
            f"The declared days hold fewer than {LEAST_SHIFTS} shifts without those that may have"
            f" triggered it; their plain sum, {side_words(declared)}, would give {ratio_words(effect)}."
        )


def _holds_one(shrunk: BeforeAfter | None) -> bool:
    if shrunk is None or shrunk.low is None or shrunk.high is None:
        return False
    return shrunk.low <= 1 <= shrunk.high


def _doubts(action: Action) -> Iterator[str]:
    """What else a change may come of than the action."""
    if _holds_one(action.shrunk):
        yield "The adjusted ratio holds 1: what comes back to the usual by itself may be all of it."
    if action.mix is not None and action.mostly_mix:
        mix, whole = (100 * (part or 0) for part in (action.mix.mix, action.mix.difference))
        words = f"{mix:+.2f} of {whole:+.2f} per hundred units are mix, not process"
        yield f"Other models were built: {words}."


def _back(action: Action) -> str:
    found = action.came_back
    assert found is not None
    return f"It came back: {side_words(found.side)} since {found.since.name}."


def record(action: Action) -> dict[str, object]:
    """Return an action as one flat record, as `eol action --json` prints it."""
    base, effect, shrunk = action.baseline, action.effect, action.shrunk
    plain = ("action_id", "test", "code", "zone", "title", "safety_related", "what", "owner")
    dated = ("opened_on", "due_on", "closed_on", "from_build_seq", "cut_in_at", "expected_ratio")
    back = action.came_back
    return {name: getattr(action, name) for name in (*plain, *dated)} | {
        "before": asdict(base.used),
        "kept_out": [{"shift": one.name, **asdict(one.side)} for one in base.kept_out],
        "transition": asdict(action.transition),
        "after": asdict(action.after),
        "verdict": action.verdict,
        "words": verdict_words(action),
        "ratio": effect.ratio,
        "low": effect.low,
        "high": effect.high,
        "p": effect.p,
        "more_units": effect.more_units,
        "shrunk": asdict(shrunk) if shrunk else None,
        "mix": _mix(action),
        "at_most": action.at_most,
        "came_back": {"since": back.since.name, **asdict(back.side)} if back else None,
        "remarks": list(sentences(action)),
    }


def _mix(action: Action) -> dict[str, float | None] | None:
    """The change per unit and its two parts."""
    parts = ("difference", "mix", "process")
    return {name: getattr(action.mix, name) for name in parts} if action.mix else None


def answer_rows(actions: Iterable[Action]) -> tuple[Answer, ...]:
    """Return the verdicts as rows for the table `answer`: exact, shrunk, bound and return."""
    return tuple(row for action in actions if action.cut_in for row in _rows(action))


def _rows(action: Action) -> Iterator[Answer]:
    yield _row(
        action,
        "verdict",
        action.effect.ratio,
        (action.effect.low, action.effect.high),
        verdict_words(action),
        EXACT,
    )
    if action.effect.more_units is not None:
        yield _row(action, "more_units", float(action.effect.more_units), (None, None), None, EXACT)
    if action.shrunk is not None:
        one = action.shrunk
        yield _row(action, "shrunk_ratio", one.ratio, (one.low, one.high), None, HAUER)
    for name, value in (_mix(action) or {}).items():
        yield _row(action, name, value, (None, None), None, KITAGAWA)
    if action.at_most is not None:
        yield _row(
            action, "at_most", action.at_most, (None, None), bound_words(action), "one-sided 95 %"
        )
    if action.came_back is not None:
        share = action.came_back.side.share
        yield _row(
            action, "came_back", share, (None, None), _back(action), "Poisson CUSUM (Lucas 1985)"
        )


def _row(
    action: Action,
    name: str,
    value: float | None,
    ends: tuple[float | None, float | None],
    words: str | None,
    method: str,
) -> Answer:
    return Answer(
        question=QUESTION,
        name=name,
        test=action.test,
        code=action.code,
        zone=action.zone,
        subject=action.action_id,
        n=action.after.units,
        value=value,
        low=ends[0],
        high=ends[1],
        words=words,
        method=method,
    )
