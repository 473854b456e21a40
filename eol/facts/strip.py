"""The headline figures of a shift, each with its interval, usual range and target."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from eol.facts.ftt import VoidCount, of_crew
from eol.facts.limits import Usual, rate_range, share_range, value_range
from eol.facts.reader import Row, whole


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure; null where it cannot be told yet.

    `part` of `n` is what the value is made of; `low` and `high` its interval (rule 16);
    `worst` and `best` what it can still become. `crew_usual` is the usual range of the shift's
    own crew beside that of all crews. `up_is_worse` says which way hurts.
    """

    value: float | None
    n: int = 0
    part: int | None = None
    low: float | None = None
    high: float | None = None
    worst: float | None = None
    best: float | None = None
    usual: Usual | None = None
    target: float | None = None
    up_is_worse: bool = False
    crew_usual: Usual | None = None

    @property
    def beyond_usual(self) -> bool:
        """True when the value lies outside its usual range at the side that hurts."""
        if self.value is None or self.usual is None:
            return False
        return self.value > self.usual.high if self.up_is_worse else self.value < self.usual.low

    @property
    def misses_target(self) -> bool:
        """True when the whole interval lies at the wrong side of the target."""
        if self.target is None or self.value is None:
            return False
        if self.up_is_worse:
            return (self.low if self.low is not None else self.value) > self.target
        return (self.high if self.high is not None else self.value) < self.target


@dataclass(frozen=True, slots=True)
class Strip:
    """The figures of the line cohort (rule 11) and of the shift's tests, in their fixed places."""

    built: int
    tested_in_full: int
    undecided: int
    void_tests: Figure
    line_ftt: Figure
    rty: Figure
    dphu: Figure


def strip_facts(
    present: Row,
    history: Sequence[Row],
    *,
    tested_in_full: int,
    void: Sequence[VoidCount],
    target: Mapping[str, float],
) -> Strip:
    """Return the strip of a shift.

    Args:
        present: its row of `line_by_shift`, empty where the cohort is.
        history: the settled rows before it, oldest first.
        tested_in_full: units of the cohort with a counted run of every required test.
        void: void tests of each settled shift before, of the present one last.
        target: the plant's targets by figure.
    """
    return Strip(
        built=whole(present.get("built")),
        tested_in_full=tested_in_full,
        undecided=whole(present.get("undecided")),
        void_tests=_void_tests(void),
        line_ftt=_line_ftt(present, history, target),
        rty=Figure(
            value=present.get("rty"),
            usual=value_range([r["rty"] for r in history if r["rty"] is not None]),
            target=target.get("rty"),
        ),
        dphu=_dphu(present, history, target),
    )


def _line_ftt(present: Row, history: Sequence[Row], target: Mapping[str, float]) -> Figure:
    through, failed = whole(present.get("went_through")), whole(present.get("failed_one"))
    return Figure(
        value=present.get("ftt"),
        n=through + failed,
        part=through,
        low=present.get("low"),
        high=present.get("high"),
        worst=present.get("worst"),
        best=present.get("best"),
        usual=_decided_range(history, through + failed),
        target=target.get("line_ftt"),
        crew_usual=_decided_range(of_crew(history, present), through + failed),
    )


def _decided_range(history: Sequence[Row], present: int) -> Usual | None:
    through = [whole(row["went_through"]) for row in history]
    decided = [whole(row["went_through"]) + whole(row["failed_one"]) for row in history]
    return share_range(through, decided, present=present)


def _dphu(present: Row, history: Sequence[Row], target: Mapping[str, float]) -> Figure:
    built = whole(present.get("built"))
    return Figure(
        value=present.get("dphu"),
        n=built,
        part=whole(present.get("defects")),
        low=present.get("dphu_low"),
        high=present.get("dphu_high"),
        usual=_defect_range(history, built),
        target=target.get("dphu"),
        up_is_worse=True,
        crew_usual=_defect_range(of_crew(history, present), built),
    )


def _defect_range(history: Sequence[Row], present: int) -> Usual | None:
    defects = [whole(row["defects"]) for row in history]
    usual = rate_range(defects, [whole(row["built"]) for row in history], present=present)
    return usual.times(100) if usual else None


def _void_tests(void: Sequence[VoidCount]) -> Figure:
    *before, now = void
    usual = rate_range(
        [each.void_runs for each in before],
        [each.presented for each in before],
        present=now.presented,
    )
    return Figure(
        value=float(now.void_runs),
        n=now.presented,
        usual=usual.times(now.presented) if usual else None,
        up_is_worse=True,
    )
