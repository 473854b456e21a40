"""Counts over runs that the truth of several stories needs."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from eol.demo.outcome import first_runs
from eol.demo.plan import SHIFTS, Shift, shift_at
from eol.demo.record import Record
from eol.demo.units import FIRST_SEQ, Unit
from eol.demo.world import Run

Facts = dict[str, Any]
"""What truth.json holds of one story."""


def first_runs_between(record: Record, test: str, days: tuple[int, int]) -> list[Run]:
    """Return the first counted runs of a test that ended in the shifts of some days, both ends included."""
    first, last = days
    runs = first_runs(record.ledger, test)
    return [run for run in runs if first <= ended_in(run).day <= last]


def has(run: Run, code: str, zone: str | None = None) -> bool:
    """Say whether a run found a code, in one zone or in any."""
    return any(fault.code == code and zone in (None, fault.zone) for fault in run.findings)


def share(runs: Iterable[Run], found: Sequence[Run], holds: Callable[[Run], bool]) -> Facts:
    """Count the runs for which something holds, and those of the found ones."""
    return {"units": sum(map(holds, runs)), "defects": sum(map(holds, found))}


def by_shift(runs: Iterable[Run], shift: Callable[[Run], Shift]) -> dict[str, int]:
    """Count runs by a shift of theirs, named as DATE/SHIFT, in order."""
    counts: dict[Shift, int] = {}
    for run in runs:
        counts[shift(run)] = counts.get(shift(run), 0) + 1
    ordered = sorted(counts, key=lambda one: one.number)
    return {f"{one.production_date}/{one.name}": counts[one] for one in ordered}


def ended_in(run: Run) -> Shift:
    """Return the shift in which a run ended."""
    return shift_at(run.ended) or SHIFTS[-1]


def seq_range(units: Iterable[Unit]) -> list[int]:
    """Return the first and last build sequence of some production units."""
    numbers = [FIRST_SEQ + unit.number for unit in units]
    return [min(numbers), max(numbers)]


def shift_key(shift: Shift) -> dict[str, str]:
    """Return production date and name of a shift."""
    return {"production_date": shift.production_date.isoformat(), "shift": shift.name}
