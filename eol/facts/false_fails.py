"""Fails that pass at another bench without a repair: a bench that finds what is not there (rule 15)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

from eol.facts.reader import Row, whole
from eol.facts.remark import place_words
from eol.statistics.fisher import fisher
from eol.statistics.multiple import benjamini_hochberg
from eol.statistics.proportion import wilson

FEWEST = 5
"""Loops of a bench under which nothing is said of it."""

COVERAGE = 0.8
"""Share of a bench's loops of which it must be known whether they were repaired."""

LEVEL = 0.01
"""Chance of a difference without a cause, over all benches and codes, from which it is told."""


@dataclass(frozen=True, slots=True)
class FalseFails:
    """A bench whose fails pass elsewhere without a repair, more often than those of its test's others.

    Attributes:
        code: the code of the fails; None for any.
        elsewhere: loops that passed at another bench without a repair, of `told` loops of which it
            is known; `loops` counts all.
        low: lower end of the share's 95 % interval, `high` the upper one (Wilson).
        p: chance without a cause, corrected for benches and codes.
    """

    test: str
    station: str
    bay: str | None
    code: str | None
    loops: int
    told: int
    elsewhere: int
    low: float
    high: float
    others_told: int
    others_elsewhere: int
    p: float

    @property
    def name(self) -> str:
        """The bench, with its bay where it has some."""
        return place_words(self.station, self.bay)


def false_fails(counted: Sequence[Row]) -> tuple[FalseFails, ...]:
    """Name the benches whose fails pass elsewhere without a repair.

    Args:
        counted: rows of `seeing/passed_elsewhere`.

    Returns:
        By code where a code tells it, else by bench; the least likely by chance first. A bench of
        which too little is known (under 80 % of its loops) is not judged.

    Source:
        R. A. Fisher's exact test as in `fisher`, Benjamini and Hochberg 1995 over benches and codes.
    """
    groups: dict[tuple[str, str | None], list[Row]] = defaultdict(list)
    for row in counted:
        groups[row["test"], row["code"]].append(row)
    judged = [
        _judged(row, group)
        for group in groups.values()
        for row in group
        if len(group) > 1 and _covered(row)
    ]
    corrected = benjamini_hochberg([one.p for one in judged]).p
    named = [
        _with(one, p)
        for one, p in zip(judged, corrected, strict=True)
        if p <= LEVEL and one.elsewhere * one.others_told > one.others_elsewhere * one.told
    ]
    by_code = {(one.test, one.station, one.bay) for one in named if one.code}
    kept = [one for one in named if one.code or (one.test, one.station, one.bay) not in by_code]
    return tuple(sorted(kept, key=lambda one: (one.p, one.test, one.name, one.code or "")))


def _covered(row: Row) -> bool:
    told, loops = whole(row["told"]), whole(row["loops"])
    return told >= FEWEST and told >= COVERAGE * loops


def _judged(row: Row, group: Sequence[Row]) -> FalseFails:
    others = [other for other in group if other is not row]
    told, elsewhere = whole(row["told"]), whole(row["elsewhere"])
    others_told = sum(whole(other["told"]) for other in others)
    others_elsewhere = sum(whole(other["elsewhere"]) for other in others)
    share = wilson(elsewhere, told)
    return FalseFails(
        test=row["test"],
        station=row["station"],
        bay=row["bay"],
        code=row["code"],
        loops=whole(row["loops"]),
        told=told,
        elsewhere=elsewhere,
        low=share.low or 0.0,
        high=share.high or 0.0,
        others_told=others_told,
        others_elsewhere=others_elsewhere,
        p=fisher((elsewhere, told), (others_elsewhere, others_told)).p,
    )


def _with(one: FalseFails, p: float) -> FalseFails:
    return replace(one, p=p)
