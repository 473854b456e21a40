"""First-time-through of each test over the last shifts, with the limits of each shift's own n."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from eol.facts.limits import Usual, share_range
from eol.facts.reader import Row, total, whole
from eol.statistics.limits import LEAST_SHIFTS

Window = tuple[date, str | None]
"""A shift: its production date and its name, None between shifts."""

SHOWN_SHIFTS = 30


@dataclass(frozen=True, slots=True)
class ShiftPoint:
    """One shift of one test; `ftt` is null where no unit was tested (rule 9)."""

    production_date: date
    shift: str | None
    tested: int
    passed_first: int
    ftt: float | None
    usual: Usual | None

    @property
    def below(self) -> bool:
        """True under the lower limit."""
        return self.ftt is not None and self.usual is not None and self.ftt < self.usual.low

    @property
    def above(self) -> bool:
        """True over the upper limit."""
        return self.ftt is not None and self.usual is not None and self.ftt > self.usual.high


@dataclass(frozen=True, slots=True)
class VoidCount:
    """Void tests of a shift over all its tests, and the units that were presented to them."""

    void_runs: int
    presented: int


@dataclass(frozen=True, slots=True)
class FttSeries:
    """One test over the last shifts, oldest first; the last point is the shift of the page.

    `low` and `high` are the Wilson interval of the present shift (rule 16); the counts are
    those of `ftt_by_shift`. `crew_usual` is the usual range of the shift's own crew, null with
    fewer than 12 settled shifts of it.
    """

    test: str
    title: str
    required: bool
    points: tuple[ShiftPoint, ...]
    limit_shifts: int
    low: float | None
    high: float | None
    presented: int
    pending: int
    void_runs: int
    aborted_runs: int
    retested: int
    crew_usual: Usual | None = None

    @property
    def now(self) -> ShiftPoint:
        """The point of the shift of the page."""
        return self.points[-1]

    @property
    def limits_known(self) -> bool:
        """True with enough settled shifts behind the present one."""
        return self.limit_shifts >= LEAST_SHIFTS


def windows_up_to(
    history: Sequence[Row], *, present: Window, usual_shifts: int
) -> tuple[Window, ...]:
    """Return the shifts with runs before the present one, oldest first, and the present one.

    Args:
        history: rows of `page/ftt_history`.
        present: the shift of the page.
        usual_shifts: how many shifts before it are wanted at most.
    """
    starts = {
        (row["production_date"], row["shift"]): row["starts_at"]
        for row in history
        if row["starts_at"] is not None
    }
    until = starts.get(present)
    before = sorted(
        (at, key)
        for key, at in starts.items()
        if key != present and (at < until if until else key[0] < present[0])
    )
    return (*(key for _, key in before[-usual_shifts:]), present)


def void_counts(history: Sequence[Row], windows: Sequence[Window]) -> tuple[VoidCount, ...]:
    """Return the void tests of each settled shift before the present one, and of that last."""
    counts = []
    for window in windows:
        found = [row for row in history if (row["production_date"], row["shift"]) == window]
        if window == windows[-1] or all(row["settled"] for row in found):
            void = total(row["void_runs"] for row in found)
            counts.append(VoidCount(void, total(row["presented"] for row in found)))
    return tuple(counts)


def ftt_series(test: Row, history: Sequence[Row], windows: Sequence[Window]) -> FttSeries:
    """Return one test's series; its limits leave the shift of the page out.

    Args:
        test: test, title and whether the plan asks for it.
        history: this test's rows of `ftt_by_shift`, any order.
        windows: the shifts wanted, oldest first, the shift of the page last.
    """
    of = {(row["production_date"], row["shift"]): row for row in history}
    before = [of[key] for key in windows[:-1] if key in of and of[key]["settled"]]
    present = of.get(windows[-1], {})
    points = tuple(_point(key, of.get(key, {}), before) for key in windows[-SHOWN_SHIFTS:])
    own = of_crew(before, present)
    return FttSeries(
        test=test["test"],
        title=test["title"] or test["test"],
        required=bool(test["required"]),
        points=points,
        limit_shifts=len([row for row in before if whole(row["tested"])]),
        low=present.get("low"),
        high=present.get("high"),
        presented=whole(present.get("presented")),
        pending=whole(present.get("pending")),
        void_runs=whole(present.get("void_runs")),
        aborted_runs=whole(present.get("aborted_runs")),
        retested=whole(present.get("retested")),
        crew_usual=_point(windows[-1], present, own).usual,
    )


def of_crew(before: Sequence[Row], present: Row) -> list[Row]:
    """Return the shifts of the present shift's own crew; none where its crew is unknown."""
    crew = present.get("crew")
    return [row for row in before if crew is not None and row.get("crew") == crew]


def _point(key: Window, row: Row, before: Sequence[Row]) -> ShiftPoint:
    tested, passed = whole(row.get("tested")), whole(row.get("passed_first"))
    return ShiftPoint(
        production_date=key[0],
        shift=key[1],
        tested=tested,
        passed_first=passed,
        ftt=row.get("ftt"),
        usual=share_range(
            [whole(earlier["passed_first"]) for earlier in before],
            [whole(earlier["tested"]) for earlier in before],
            present=tested,
        ),
    )
