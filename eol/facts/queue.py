"""The repair queue: what came, what was cleared, how long it takes, and whether the records fit together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from eol.facts.reader import Reader, Row, rows, whole
from eol.facts.span import Span
from eol.facts.units import OpenUnit
from eol.statistics.survival import kaplan_meier
from eol.statistics.waiting import QueueCheck, little_check

WINDOW = 20
"""Shifts that are looked at together."""

BANDS = (
    (8.0, "under 8 h"),
    (24.0, "8 to 24 h"),
    (72.0, "1 to 3 days"),
    (float("inf"), "over 3 days"),
)
"""Ages of what waits: the upper end in hours, and its name."""

FEWEST = 20
"""Arrivals without which Little's law says nothing."""

OFF_BY = 1.5
"""From this ratio on, either way, records are missing or the queue grows or shrinks."""


@dataclass(frozen=True, slots=True)
class MedianWait:
    """Hours within which half are clear, with a 95 % interval; None where fewer than half are known to be.

    `ended` waits were cleared, `open` ones are censored.
    """

    median: float | None
    median_low: float | None
    median_high: float | None
    ended: int
    open: int


@dataclass(frozen=True, slots=True)
class RepairQueue:
    """Units between a fail and the pass that clears them, over the last shifts.

    Attributes:
        shifts: shifts looked at.
        arrivals: waits that began in them, one a unit and test; `cleared` ended in them.
        repairs: repairs that ended in them.
        waits: how long those arrivals wait, open ones censored.
        little: units waiting on average over the time, against arrivals x time.
        bands: units that wait now, by age.
        open_twice: units that wait after two fails or more; `cleared_twice` were cleared after as many.
    """

    shifts: int
    arrivals: int
    cleared: int
    repairs: int
    waits: MedianWait
    little: QueueCheck
    bands: tuple[tuple[str, int], ...]
    open_twice: int
    cleared_twice: int

    @property
    def words(self) -> str:
        """One line: what came, what was cleared, and how long that takes."""
        half = self.waits.median
        time = (
            "fewer than half are clear yet"
            if half is None
            else f"half are clear within {half:.1f} h"
        )
        return (
            f"Repair queue, {self.shifts} shifts: {self.arrivals} came, {self.cleared} cleared,"
            f" {self.repairs} repairs; {time}"
        )

    @property
    def does_not_add_up(self) -> bool:
        """True where far more or fewer units wait than arrivals and time explain."""
        ratio = self.little.ratio
        if ratio is None or self.arrivals < FEWEST:
            return False
        return ratio > OFF_BY or ratio < 1 / OFF_BY


def queue_facts(
    reader: Reader, span: Span | None, open_units: Sequence[OpenUnit]
) -> RepairQueue | None:
    """Tell of the repair queue.

    Args:
        reader: the published copy of the store.
        span: the shifts up to the present one; None where there is none.
        open_units: what waits.

    Returns:
        The queue; None without a shift.
    """
    if span is None:
        return None
    window = span.last(WINDOW)
    waits = rows(reader.run("queue", "wait", **window.bounds))
    repaired = rows(reader.run("queue", "repair", **window.bounds))[0]
    return repair_queue(waits, window, open_units, repairs=whole(repaired["repairs"]))


def repair_queue(
    waits: Sequence[Row], window: Span, open_units: Sequence[OpenUnit], *, repairs: int
) -> RepairQueue:
    """Add the waits of some shifts up.

    Args:
        waits: rows of `queue/wait`.
        window: the shifts.
        open_units: what waits now.
        repairs: repairs that ended in the shifts.
    """
    first, until = window.shifts[0].starts_at, window.until
    came = [row for row in waits if first <= row["began_at"]]
    ended = [row for row in waits if row["ended_at"] is not None and row["ended_at"] < until]
    hours = [_hours(row["began_at"], min(row["ended_at"] or until, until)) for row in came]
    found = kaplan_meier(
        hours, [row["ended_at"] is not None and row["ended_at"] < until for row in came]
    )
    little = little_check(
        arrivals=len(came),
        hours=_hours(first, until),
        mean_hours=sum(hours) / len(hours) if hours else 0.0,
        waiting=_waited(waits, first, until) / _hours(first, until),
    )
    return RepairQueue(
        shifts=len(window.shifts),
        arrivals=len(came),
        cleared=len(ended),
        repairs=repairs,
        waits=MedianWait(
            found.median, found.median_low, found.median_high, found.ended, found.open
        ),
        little=little,
        bands=age_bands(open_units),
        open_twice=len({unit.vin for unit in open_units if unit.loops >= 2}),
        cleared_twice=sum(whole(row["fails"]) >= 2 for row in ended),
    )


def age_bands(open_units: Sequence[OpenUnit]) -> tuple[tuple[str, int], ...]:
    """Return how many units wait for how long, each counted once by its longest wait."""
    longest: dict[str, float] = {}
    for unit in open_units:
        longest[unit.vin] = max(longest.get(unit.vin, 0.0), unit.hours or 0.0)
    counts = dict.fromkeys((name for _, name in BANDS), 0)
    for hours in longest.values():
        counts[next(name for end, name in BANDS if hours < end)] += 1
    return tuple(counts.items())


def _waited(waits: Sequence[Row], first: datetime, until: datetime) -> float:
    """Hours that all units together waited within a span of time, those that came before it too."""
    return sum(
        _hours(max(row["began_at"], first), min(row["ended_at"] or until, until)) for row in waits
    )


def _hours(start: datetime, end: datetime) -> float:
    return max(0.0, (end - start).total_seconds() / 3600)
