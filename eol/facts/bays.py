"""Each bay of a test beside the test's other bays, in one shift."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from eol.facts.reader import Row, total, whole
from eol.statistics.fisher import fisher
from eol.statistics.multiple import holm
from eol.statistics.proportion import wilson

MOST_VOID = 0.05
"""Share of void runs from which a bay's interval would promise too much."""

SIGNAL = 0.01
"""Chance of a difference by luck in any of the bays under which the page speaks up."""

FEWEST_VOID = 5

MOSTLY_VOID = 0.5
"""Share of void runs from which a bay could hardly see at all."""


@dataclass(frozen=True, slots=True)
class Bay:
    """One bay: first passes of its tested units, with Wilson interval, beside its test's others.

    `low` and `high` are null where more than 5 % of the runs were void; `others_ftt` is null
    where the test ran in no other bay; `by_luck` is the chance of so large a difference from them
    without any cause (Fisher's exact test, two-sided, corrected by Holm for all bays of the shift).
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
    by_luck: float

    @property
    def differs(self) -> str | None:
        """`fewer` or `more` where the bay passes fewer or more than its test's others."""
        if self.by_luck > SIGNAL or self.ftt is None or self.others_ftt is None:
            return None
        return "fewer" if self.ftt < self.others_ftt else "more"

    @property
    def mostly_void(self) -> bool:
        """True where at least half of its units had void runs."""
        return self.void_runs >= FEWEST_VOID and self.void_runs >= MOSTLY_VOID * self.presented


def bay_facts(present: Sequence[Row], titles: Mapping[str, str]) -> tuple[Bay, ...]:
    """Return the bays of a shift, by test and name.

    Args:
        present: the shift's rows of `page/bays`.
        titles: title of each test, in the plant's order.
    """
    order = {test: place for place, test in enumerate(titles)}
    single = [_bay(row, present, titles) for row in present]
    corrected = holm([bay.by_luck for bay in single]).p
    bays = [replace(bay, by_luck=p) for bay, p in zip(single, corrected, strict=True)]
    return tuple(sorted(bays, key=lambda bay: (order.get(bay.test, len(order)), bay.name)))


def _bay(row: Row, present: Sequence[Row], titles: Mapping[str, str]) -> Bay:
    others = [
        other
        for other in present
        if other["test"] == row["test"]
        and (other["station"], other["bay"]) != (row["station"], row["bay"])
    ]
    tested, passed = whole(row["tested"]), whole(row["passed_first"])
    n = total(other["tested"] for other in others)
    others_passed = total(other["passed_first"] for other in others)
    telling = tested and whole(row["void_runs"]) <= MOST_VOID * whole(row["presented"])
    interval = wilson(passed, tested) if telling else None
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
        others_ftt=others_passed / n if n else None,
        by_luck=fisher((passed, tested), (others_passed, n)).p,
    )
