"""Has a shift settled (rule 11), and if not, what does it wait for?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from eol.facts.asked import Question
from eol.facts.reader import rows
from eol.facts.remark import Remark, joined, moment
from eol.words import counted


@dataclass(frozen=True, slots=True)
class WaitedFor:
    """Undecided units of the cohort that have no counted run of a test; null: of no test."""

    test: str | None
    status: str | None
    units: int


@dataclass(frozen=True, slots=True)
class Settling:
    """Rule 11's `settled` of one shift, and what it waits for.

    Attributes:
        built: production units that left the line in the shift; 0: it has no cohort.
        settled: as in line_by_shift; False without a cohort.
        settles_at: the shift's end + settle_hours, before which nothing settles.
        reached: True when the data clock is past that.
        stations: stations of required tests that have sent nothing newer than settles_at.
        units_feed: True when the units feed has sent nothing newer either.
        units: units still to be decided.
        waited_for: what those lack, most units first.
    """

    built: int
    settled: bool
    settles_at: datetime
    reached: bool
    stations: tuple[str, ...]
    units_feed: bool
    units: int
    waited_for: tuple[WaitedFor, ...]


def settling_facts(question: Question) -> Settling:
    """Return whether the shift has settled; what it waits for is looked up only where it has not."""
    asked = question.asked
    line = rows(
        question.reader.view(
            "line_by_shift", production_date=asked.production_date, shift=asked.shift
        )
    )
    settled = bool(line and line[0]["settled"])
    heard = [] if settled else question.rows("waits_for_station")
    undecided = bool(line and line[0]["undecided"]) and not settled
    lacking = question.rows("waits_for_unit") if undecided else []
    behind = [r for r in heard if r["last_at"] is None or r["last_at"] <= asked.settles_at]
    return Settling(
        built=line[0]["built"] if line else 0,
        settled=settled,
        settles_at=asked.settles_at,
        reached=asked.data_clock is not None and asked.data_clock > asked.settles_at,
        stations=tuple(row["station"] for row in behind if row["station"] is not None),
        units_feed=any(row["station"] is None for row in behind),
        units=lacking[0]["waited_for"] if lacking else 0,
        waited_for=tuple(WaitedFor(r["test"], r["status"], r["units"]) for r in lacking),
    )


def settling_remarks(settling: Settling) -> Iterator[Remark]:
    """Tell in one sentence that a shift has not settled, and why."""
    if settling.settled or not settling.built:
        return
    waits = [] if settling.reached else [f"data from after {moment(settling.settles_at)}"]
    if settling.reached and settling.stations:
        waits.append(
            f"data from after {moment(settling.settles_at)} of {joined(settling.stations)}"
        )
    if settling.reached and settling.units_feed:
        waits.append("a newer file of the units feed")
    if settling.units:
        waits.append(f"{counted(settling.units, 'unit')} to be decided{_lacks(settling)}")
    text = f"not settled: it waits for {joined(waits)}" if waits else "not settled"
    yield Remark("note", settling.units, text)


def _lacks(settling: Settling) -> str:
    parts = [f"{one.units} {one.status} in {one.test}" for one in settling.waited_for if one.test]
    return f" ({', '.join(parts)})" if parts else ""
