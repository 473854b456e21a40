"""The headline figures of a shift, each with its interval, usual range and target."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from eol.facts.limits import Usual, proportion_limits, rate_limits, single_value_limits
from eol.facts.reader import Row, whole


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure; null where it cannot be told yet.

    `part` of `n` is what the value is made of; `low` and `high` its interval (rule 16);
    `worst` and `best` what it can still become. `up_is_worse` says which way hurts.
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
    void_history: Sequence[Row],
    void_now: Row,
    target: Mapping[str, float],
) -> Strip:
    """Return the strip of a shift.

    Args:
        present: its row of `line_by_shift`, empty where the cohort is.
        history: the settled rows before it, oldest first.
        tested_in_full: units of the cohort with a counted run of every required test.
        void_history: void_runs and presented of each settled shift before, over its tests.
        void_now: the same of the present shift.
        target: the plant's targets by figure.
    """
    return Strip(
        built=whole(present.get("built")),
        tested_in_full=tested_in_full,
        undecided=whole(present.get("undecided")),
        void_tests=_void_tests(void_now, void_history),
        line_ftt=_line_ftt(present, history, target),
        rty=Figure(
            value=present.get("rty"),
            usual=single_value_limits([r["rty"] for r in history if r["rty"] is not None]),
            target=target.get("rty"),
        ),
        dphu=_dphu(present, history, target),
    )


def _line_ftt(present: Row, history: Sequence[Row], target: Mapping[str, float]) -> Figure:
    through, failed = whole(present.get("went_through")), whole(present.get("failed_one"))
    decided = [(whole(r["went_through"]), whole(r["failed_one"])) for r in history]
    return Figure(
        value=present.get("ftt"),
        n=through + failed,
        part=through,
        low=present.get("low"),
        high=present.get("high"),
        worst=present.get("worst"),
        best=present.get("best"),
        usual=proportion_limits(
            [a for a, _ in decided], [a + b for a, b in decided], present=through + failed
        ),
        target=target.get("line_ftt"),
    )


def _dphu(present: Row, history: Sequence[Row], target: Mapping[str, float]) -> Figure:
    built = whole(present.get("built"))
    usual = rate_limits(
        [whole(r["defects"]) for r in history],
        [whole(r["built"]) for r in history],
        present=built,
    )
    return Figure(
        value=present.get("dphu"),
        n=built,
        part=whole(present.get("defects")),
        low=present.get("dphu_low"),
        high=present.get("dphu_high"),
        usual=_times(usual, 100),
        target=target.get("dphu"),
        up_is_worse=True,
    )


def _void_tests(now: Row, history: Sequence[Row]) -> Figure:
    presented = whole(now.get("presented"))
    usual = rate_limits(
        [whole(r["void_runs"]) for r in history],
        [whole(r["presented"]) for r in history],
        present=presented,
    )
    return Figure(
        value=float(whole(now.get("void_runs"))),
        n=presented,
        usual=_times(usual, presented),
        up_is_worse=True,
    )


def _times(usual: Usual | None, factor: float) -> Usual | None:
    """The range in another measure: per hundred, or in counts."""
    if usual is None:
        return None
    return Usual(usual.low * factor, usual.centre * factor, usual.high * factor, usual.shifts)
