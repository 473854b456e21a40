"""Each bay of a test beside the test's other bays, in one shift."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from eol.facts.reader import Row, whole
from eol.statistics.proportion import wilson

MOST_VOID = 0.05
"""Share of void runs from which a bay's interval would promise too much."""

SIGNAL = 3.0
"""Standard errors between a bay and its test's others from which the page speaks up."""


@dataclass(frozen=True, slots=True)
class Bay:
    """One bay: first passes of its tested units, with Wilson interval, beside its test's others.

    `low` and `high` are null where more than 5 % of the runs were void; `others_ftt` is null
    where the test ran in no other bay; `distance` is how many standard errors the bay lies
    above (+) or below (-) the others.
    """

    test: str
    title: str
    name: str
    tested: int
    passed_first: int
    ftt: float | None
    low: float | None
    high: float | None
    presented: int
    void_runs: int
    others_ftt: float | None
    distance: float

    @property
    def differs(self) -> str | None:
        """`fewer` or `more` where the bay passes fewer or more than its test's others."""
        if abs(self.distance) < SIGNAL:
            return None
        return "fewer" if self.distance < 0 else "more"


def bay_facts(present: Sequence[Row], titles: Mapping[str, str]) -> tuple[Bay, ...]:
    """Return the bays of a shift, by test and name.

    Args:
        present: the shift's rows of `page/bays`.
        titles: title of each test, in the plant's order.
    """
    order = {test: place for place, test in enumerate(titles)}
    bays = [_bay(row, present, titles) for row in present]
    return tuple(sorted(bays, key=lambda bay: (order.get(bay.test, len(order)), bay.name)))


def _bay(row: Row, present: Sequence[Row], titles: Mapping[str, str]) -> Bay:
    others = [
        other
        for other in present
        if other["test"] == row["test"]
        and (other["station"], other["bay"]) != (row["station"], row["bay"])
    ]
    tested, passed = whole(row["tested"]), whole(row["passed_first"])
    n = sum(whole(other["tested"]) for other in others)
    telling = tested and whole(row["void_runs"]) <= MOST_VOID * whole(row["presented"])
    interval = wilson(passed, tested) if telling else None
    others_ftt = sum(whole(other["passed_first"]) for other in others) / n if n else None
    return Bay(
        test=row["test"],
        title=titles.get(row["test"], row["test"]),
        name=" ".join(part for part in (row["station"], row["bay"]) if part),
        tested=tested,
        passed_first=passed,
        ftt=passed / tested if tested else None,
        low=interval.low if interval else None,
        high=interval.high if interval else None,
        presented=whole(row["presented"]),
        void_runs=whole(row["void_runs"]),
        others_ftt=others_ftt,
        distance=_distance(passed, tested, others_ftt, n),
    )


def _distance(passed: int, tested: int, others_ftt: float | None, n: int) -> float:
    """Two-proportion z with the pooled share; 0 where it cannot be told."""
    if others_ftt is None or not tested:
        return 0.0
    pooled = (passed + others_ftt * n) / (tested + n)
    error = math.sqrt(pooled * (1 - pooled) * (1 / tested + 1 / n))
    return (passed / tested - others_ftt) / error if error else 0.0
