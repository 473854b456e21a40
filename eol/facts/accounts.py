"""Is every unit of a shift accounted for in each test: expected, tested, pending, untested, escaped?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import median
from typing import Literal

from eol.facts.asked import Question
from eol.facts.reader import Row
from eol.facts.remark import Kind, Remark, joined
from eol.words import counted

FEW = 0.05
"""Up to this share of a shift's units may be open: rule 11 gives no figure beyond it."""
_SHIFTS_THAT_TELL = 3


@dataclass(frozen=True, slots=True)
class UnitAccount:
    """What became of the units of one test in one shift.

    Attributes:
        test: name of the test.
        title: its name in words.
        required: True where the plan asks a unit of the shift for it.
        expected: units due: those of the line cohort whose way leads there (rule 11); where no unit
            left the line in the shift, the median of `usual`; None where neither tells.
        expected_by: what `expected` rests on: line_off or usual; None where nothing tells.
        usual: units presented in the last 8 shifts of the same name and weekday, oldest first.
        presented: units with any run that ended in the shift.
        tested: units whose first counted run ended in the shift.
        pending: units with void runs only, the last of them in the shift (rule 9).
        void_runs: runs of the shift that do not count, but aborted ones.
        counted: units due with a run that counts, whenever it came.
        void_only: units due with void runs only, whenever they came.
        untested: units due without any run, but scrapped and diverted ones.
        unproven: units due past a proof event while a station is silent (rule 14).
        escaped: units due past a proof event without proof (rule 14).
        held: units due that are held.
    """

    test: str
    title: str
    required: bool
    expected: float | None
    expected_by: Literal["line_off", "usual"] | None
    usual: tuple[int, ...]
    presented: int
    tested: int
    pending: int
    void_runs: int
    counted: int
    void_only: int
    untested: int
    unproven: int
    escaped: int
    held: int

    @property
    def missing(self) -> int:
        """Units due without a run that counts."""
        return self.void_only + self.untested

    @property
    def few_came(self) -> bool:
        """True when clearly fewer units were presented than in any like shift before."""
        enough = len(self.usual) >= _SHIFTS_THAT_TELL
        return enough and self.presented < (1 - FEW) * min(self.usual)


def unit_accounts(question: Question) -> tuple[UnitAccount, ...]:
    """Return the tests that were due or run in the shift, or usually are, in the plant's order."""
    before: dict[str, list[int]] = {}
    for row in question.rows("usual_presented"):
        before.setdefault(row["test"], []).append(row["presented"])
    due = question.rows("units_by_test")
    by_line = any(row["expected"] for row in due)
    accounts = [_account(row, tuple(before.get(row["test"], ())), by_line=by_line) for row in due]
    return tuple(one for one in accounts if one.required or one.presented or one.expected)


def _account(row: Row, usual: tuple[int, ...], *, by_line: bool) -> UnitAccount:
    if by_line:
        told = {"expected": row["expected"], "expected_by": "line_off"}
    elif usual:
        told = {"expected": median(usual), "expected_by": "usual"}
    else:
        told = {"expected": None, "expected_by": None}
    return UnitAccount(**row | told, usual=usual)


def account_remarks(accounts: Sequence[UnitAccount], *, running: bool) -> Iterator[Remark]:
    """Tell what is missing of the units of each test; a doubt where it is more than a few.

    Of a running shift it is not told that few units came: more may come.
    """
    for one in accounts:
        yield from _missing(one)
        if not running:
            yield from _fewer(one)
        if one.unproven:
            silent = "past a proof event while a station of the test is silent"
            yield Remark("look", one.unproven, f"{one.title}: {_units(one.unproven)} {silent}")
        if one.held:
            yield Remark("note", one.held, f"{one.title}: {_units(one.held)} held")


def _missing(one: UnitAccount) -> Iterator[Remark]:
    """Units due without a run that counts; of a shift without line-off those presented."""
    due = one.expected if one.expected_by == "line_off" else one.presented
    if not one.missing or not due:
        return
    parts = [f"{one.void_only} with void runs only"] if one.void_only else []
    parts += [f"{one.untested} untested"] if one.untested else []
    have = "has" if one.missing == 1 else "have"
    text = f"{one.title}: {one.missing} of {due:.0f} units {have} no run that counts"
    kind: Kind = "doubt" if one.missing > FEW * due else "note"
    yield Remark(kind, one.missing, f"{text} ({joined(parts)})")


def _fewer(one: UnitAccount) -> Iterator[Remark]:
    if one.expected_by != "usual" or not one.few_came:
        return
    usual = f"{min(one.usual)} to {max(one.usual)} are usual"
    yield Remark("doubt", one.presented, f"{one.title}: {_units(one.presented)} presented, {usual}")


def _units(n: int) -> str:
    return counted(n, "unit")
