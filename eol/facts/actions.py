"""Did the actions work: each of the register held against what was before it, by the order of building.

Units before and after are told apart by build sequence and the time off the line; those in between
are shown apart. A second view takes out what would have come back to the usual by itself.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from eol.facts.action_mix import action_mix
from eol.facts.action_sides import Baseline, ShiftSide, Side, added, baseline_of, shift_sides
from eol.facts.action_watch import Recurrence, recurrence
from eol.facts.ftt import Window
from eol.facts.mix import MOSTLY
from eol.facts.reader import Reader, Row, rows, whole
from eol.statistics.before_after import BeforeAfter, before_after
from eol.statistics.effect import EXPECTED_RATIO, ActionEffect, judge_action
from eol.statistics.mix import Mix
from eol.statistics.proportion import clopper_pearson, highest_share_without_failure
from eol.statistics.ranks import shrunk_rates

NOT_CUT_IN = "not cut in yet"
"""The verdict of an action without a first unit."""

FEWEST_CODES = 5
"""Codes without which it is not told what codes are like."""

FRESH_SHIFTS = 8
"""Shifts for which a verdict or a return is told as new."""


@dataclass(frozen=True, slots=True)
class Action:
    """One action with its verdict.

    Attributes:
        test: the test of its code; None where no test knows the code.
        title: the code's title, empty where the catalogue has none.
        what: what is done.
        cut_in_at: when it cut in, plant-local.
        expected_ratio: the ratio hoped for; the usual one where none between 0 and 1 was given.
        baseline: what it is held against.
        transition: units of which it is not plain whether they have it.
        after: units that have it, up to the next action on the code.
        effect: the exact rate ratio and the verdict.
        shrunk: the same with regression to the mean taken out; None where fewer than five codes
            tell what codes are like, and for an action on one zone.
        at_most: highest share that the units after still allow (one-sided 95 %), for safety-related
            codes; None for others.
        together: another action on the code that cut in at the same unit.
        came_back: the latest return of the code after `fewer`.
        alone: the verdict that the worst shift kept out would give, taken alone.
        on_declared: the verdict that the declared days would give, trigger and all.
        mix: the change taken apart by model; None where a side has no unit.
        fresh: whether the verdict was another one eight shifts ago.
    """

    action_id: str
    test: str | None
    code: str
    zone: str | None
    title: str
    test_title: str
    safety_related: bool
    handling: str | None
    what: str
    owner: str
    opened_on: date | None
    due_on: date | None
    closed_on: date | None
    from_build_seq: int | None
    cut_in_at: datetime | None
    expected_ratio: float
    baseline: Baseline
    transition: Side
    after: Side
    effect: ActionEffect
    shrunk: BeforeAfter | None
    at_most: float | None
    together: str | None
    came_back: Recurrence | None
    alone: ActionEffect | None
    on_declared: ActionEffect | None
    mix: Mix | None = None
    fresh: bool = False

    @property
    def cut_in(self) -> bool:
        """True where it is known from which unit or time on it acts."""
        return self.from_build_seq is not None or self.cut_in_at is not None

    @property
    def verdict(self) -> str:
        """`fewer`, `more`, `no clear change`, `too early`, `no baseline` or `not cut in yet`."""
        return self.effect.verdict if self.cut_in else NOT_CUT_IN

    @property
    def surely_more(self) -> bool:
        """True where it is `more`, and the adjusted ratio, where there is one, says so too."""
        low = self.shrunk.low if self.shrunk else None
        return self.verdict == "more" and (low is None or low > 1)

    @property
    def back(self) -> bool:
        """True where the code came back of late."""
        return self.came_back is not None and self.came_back.last < FRESH_SHIFTS

    @property
    def mostly_mix(self) -> bool:
        """True where at least half of the change comes of what was built."""
        if self.mix is None or not self.mix.difference or self.mix.mix is None:
            return False
        return self.mix.mix / self.mix.difference >= MOSTLY

    def overdue(self, day: date) -> bool:
        """Tell whether it was due before a day and is neither cut in nor closed."""
        late = self.due_on is not None and self.due_on < day
        return late and not self.cut_in and self.closed_on is None


def action_facts(
    reader: Reader, *, until: datetime | None = None, closed_within: int | None = None
) -> tuple[Action, ...]:
    """Judge the actions of the register.

    Args:
        reader: the published copy of the store.
        until: what was tested and opened before it counts, UTC; None for all.
        closed_within: leave out what was closed more than so many days before; None for nothing.

    Returns:
        The actions, open ones first, then by the day they were opened.

    Source:
        Exact conditional rate ratio as in `rate_ratio`; E. Hauer, "Observational Before-After
        Studies in Road Safety", 1997.
    """
    register = [
        row
        for row in rows(reader.run("action", "register", until=until))
        if not _long_closed(row, until, closed_within)
    ]
    cut = [row for row in register if row["test"] and (row["from_build_seq"] or row["cut_in_at"])]
    calendar = [
        (row["production_date"], row["shift"]) for row in rows(reader.run("action", "shift"))
    ]
    sides = _sides(reader, cut, until) if cut else {}
    counted = rows(reader.run("action", "code_count", until=until)) if cut else []
    judged = [_judged(row, sides, counted, calendar) for row in register]
    return tuple(sorted(judged, key=_order))


def _order(action: Action) -> tuple[bool, date, str]:
    return action.closed_on is not None, action.opened_on or date.min, action.action_id


def _long_closed(row: Row, until: datetime | None, days: int | None) -> bool:
    if days is None or until is None or row["closed_on"] is None:
        return False
    closed: date = row["closed_on"]
    return closed < until.date() - timedelta(days=days)


def _sides(
    reader: Reader, cut: Sequence[Row], until: datetime | None
) -> dict[tuple[str, str], list[Row]]:
    """Rows of `action/side` by action and side."""
    found = reader.run(
        "action",
        "side",
        action_ids=[row["action_id"] for row in cut],
        tests=[row["test"] for row in cut],
        previous_seqs=[row["previous_seq"] for row in cut],
        next_seqs=[row["next_seq"] for row in cut],
        only_some=[row["only_some"] for row in cut],
        until=until,
    )
    sides: dict[tuple[str, str], list[Row]] = defaultdict(list)
    for row in rows(found):
        sides[row["action_id"], row["side"]].append(row)
    return sides


def _judged(
    row: Row,
    sides: dict[tuple[str, str], list[Row]],
    counted: Sequence[Row],
    calendar: Sequence[Window],
) -> Action:
    name = row["action_id"]
    before = shift_sides(sides.get((name, "before"), ()), calendar)
    after = shift_sides(sides.get((name, "after"), ()), calendar)
    hoped = row["expected_ratio"]
    expected = hoped if hoped is not None and 0 < hoped < 1 else EXPECTED_RATIO
    days = (row["baseline_from"], row["baseline_to"])
    baseline = baseline_of(before, after, calendar, opened_on=row["opened_on"], declared=days)
    whole_after = added(after)
    now = _effect(whole_after, baseline.used, expected)
    worst = baseline.worst
    naive = None if baseline.declared_counts else baseline.declared
    return Action(
        action_id=name,
        test=row["test"],
        code=row["code"],
        zone=row["zone"],
        title=row["title"] or "",
        test_title=row["test_title"] or row["test"] or "",
        safety_related=row["safety_related"],
        handling=row["handling"],
        what=row["text"] or "",
        owner=row["owner"] or "",
        opened_on=row["opened_on"],
        due_on=row["due_on"],
        closed_on=row["closed_on"],
        from_build_seq=row["from_build_seq"],
        cut_in_at=row["cut_in_at"],
        expected_ratio=expected,
        baseline=baseline,
        transition=added(shift_sides(sides.get((name, "transition"), ()), calendar)),
        after=whole_after,
        effect=now,
        shrunk=None if row["zone"] else _shrunk(whole_after, baseline, counted),
        at_most=_at_most(whole_after) if row["safety_related"] else None,
        together=row["together"],
        came_back=recurrence(baseline.used, after, expected_ratio=expected),
        alone=_effect(whole_after, worst.side, expected) if worst else None,
        on_declared=_effect(whole_after, naive, expected) if naive else None,
        mix=action_mix(
            sides.get((name, "before"), ()), sides.get((name, "after"), ()), baseline.windows
        ),
        fresh=_effect(added(after[:-FRESH_SHIFTS]), baseline.used, expected).verdict != now.verdict,
    )


def _effect(after: Side, before: Side, expected: float) -> ActionEffect:
    return judge_action(after.counts, before.counts, expected_ratio=expected)


def _at_most(after: Side) -> float | None:
    """The highest share that the units after still allow, one-sided 95 %."""
    if not after.units:
        return None
    if not after.with_code:
        return highest_share_without_failure(after.units)
    return clopper_pearson(after.with_code, after.units, confidence=0.90).high


def _shrunk(after: Side, baseline: Baseline, counted: Iterable[Row]) -> BeforeAfter | None:
    """The empirical-Bayes view: codes of the plant are alike as far as those of the baseline's shifts were."""
    tested: dict[str, dict[Window, int]] = defaultdict(dict)
    found: dict[tuple[str, str], int] = defaultdict(int)
    for told in counted:
        window = (told["production_date"], told["shift"])
        if window in baseline.windows:
            tested[told["test"]][window] = whole(told["units"])
            if told["code"] is not None:
                found[told["test"], told["code"]] += whole(told["with_code"])
    at_risk = [sum(tested[test].values()) for test, _ in found]
    like = shrunk_rates(list(found.values()), at_risk) if len(found) >= FEWEST_CODES else None
    if like is None or not like.alpha or not like.beta or not after.units:
        return None
    return before_after(
        after.counts,
        baseline.used.counts,
        mean_rate=like.alpha / like.beta,
        rate_variance=like.alpha / like.beta**2,
    )


__all__ = ["NOT_CUT_IN", "Action", "Recurrence", "ShiftSide", "action_facts"]
