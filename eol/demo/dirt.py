"""S9: what the plant sends wrongly, late, twice or mistyped, and in which file it comes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from eol.demo.ledger import Ledger
from eol.demo.plan import DAY, HOUR, MINUTE, Shift, shift_at, shift_of
from eol.demo.stories import units_of
from eol.demo.units import Unit, make_vins
from eol.demo.world import Run, World

CLOCK_STATIONS = ("E1-1", "E1-2")
CLOCK_SLOW_SECONDS = 11 * MINUTE
CLOCK_FROM = shift_of(3, "day").starts - HOUR
CLOCK_TO = shift_of(5, "day").starts - HOUR
"""Bench E1's clock was slow on production days 3 and 4."""

SENT_TWICE = ("electrical_20260917_1440.csv", "electrical_20260917_1455.csv")
ONE_HOUR_ON = "electrical_20260926_0700.csv"
LATE = "water_20260918_0300.csv"
RENAMED = "squeak_rattle_20260909_1440.csv"
RENAMED_HEADER = {"code": "finding", "step": "element"}
NUL_TAIL = "alignment_20260924_0240.csv"
NUL_BYTES = 512
BY_HAND = "alignment_20260911_1440.csv"

_TWICE_SHIFT = shift_of(14, "day")
_HOUR_SHIFT = shift_of(16, "day")
_LATE_SHIFT = shift_of(13, "night")
_SILENT_FROM = 25 * HOUR + 10 * MINUTE
_RENAMED_SHIFT = shift_of(8, "day")
_NUL_SHIFT = shift_of(18, "night")
HAND_SHIFT = shift_of(10, "day")
_UNKNOWN_ENDING = "WAG0?TK640213"


@dataclass(frozen=True, slots=True)
class Dirt:
    """What was planted: the mistyped unit, the VIN of no schedule, and the doubled runs."""

    mistyped: Unit
    mistyped_as: str
    unknown_vin: str
    doubles: tuple[Run, ...]


def mistype(world: World) -> tuple[Unit, str]:
    """Let two neighbouring signs of one unit's VIN be swapped at its alignment, typed by hand."""
    fated = {number for number, _ in world.plans}
    for unit in units_of(world, HAND_SHIFT)[100:]:
        signs = unit.vin
        usable = not world.faults.get(unit.number) and unit.number not in fated
        if usable and signs[14] != signs[15]:
            wrong = signs[:14] + signs[15] + signs[14] + signs[16:]
            world.misread[unit.number, "alignment"] = wrong
            return unit, wrong
    raise ValueError("no unit of the shift has a VIN that can be mistyped")


def make_dirt(world: World, ledger: Ledger, mistyped: tuple[Unit, str]) -> Dirt:
    """Say which rows come in which odd file; add the runs that never were or came twice."""
    unknown = _unknown_run(world)
    ledger.book(unknown)
    world.runs.append(unknown)
    _send(world.runs, SENT_TWICE[0], "electrical", _TWICE_SHIFT, station="E2-1")
    _send(world.runs, RENAMED, "squeak_rattle", _RENAMED_SHIFT)
    _send(world.runs, NUL_TAIL, "alignment", _NUL_SHIFT, station="G3")
    _send_by_hand(world.runs, unknown)
    silent = _LATE_SHIFT.starts // DAY * DAY + _SILENT_FROM
    for run in _runs_of(world.runs, "water", _LATE_SHIFT):
        if run.bay == "C" and run.ended >= silent:
            run.sent_in = LATE
    doubles = tuple(_doubles(world.runs))
    for run in doubles:
        _book_double(ledger, run)
    return Dirt(*mistyped, unknown_vin=unknown.vin, doubles=doubles)


def as_sent(run: Run, second: int) -> int:
    """Return a time of a run as the bench wrote it down."""
    slow = run.station in CLOCK_STATIONS and CLOCK_FROM <= run.started < CLOCK_TO
    return second - CLOCK_SLOW_SECONDS if slow else second


def _unknown_run(world: World) -> Run:
    """A run of a vehicle that is in no schedule, right after the mistyped one's."""
    near = next(run for run in world.runs if run.vin_sent is not None)
    stranger = replace(near.unit, vin=make_vins([_UNKNOWN_ENDING])[0], build_seq=None)
    return replace(
        near, unit=stranger, vin_sent=None, started=near.started + 200, ended=near.ended + 200
    )


def _send(
    runs: Iterable[Run], file: str, test: str, shift: Shift, *, station: str | None = None
) -> None:
    for run in _runs_of(runs, test, shift):
        if station in (None, run.station):
            run.sent_in = file


def _send_by_hand(runs: Iterable[Run], unknown: Run) -> None:
    """The hour around the mistyped run at its station was written down by hand."""
    for run in _runs_of(runs, "alignment", HAND_SHIFT):
        if run.station == unknown.station and abs(run.started - unknown.started) < HOUR // 2:
            run.sent_in = BY_HAND


def _doubles(runs: Iterable[Run]) -> Iterable[Run]:
    """The counted runs of a bench once more, one hour on: a re-export with summer time left out."""
    for run in _runs_of(runs, "electrical", _HOUR_SHIFT):
        if run.station == "E1-2" and run.void is None:
            yield replace(
                run,
                started=run.started + HOUR,
                ended=run.ended + HOUR,
                void="suspect_double",
                sent_in=ONE_HOUR_ON,
            )


def _book_double(ledger: Ledger, run: Run) -> None:
    shift = shift_at(run.ended)
    if shift is not None:
        ledger.tallies[shift.number, run.test].void_runs += 1


def _runs_of(runs: Iterable[Run], test: str, shift: Shift) -> list[Run]:
    return [run for run in runs if run.test == test and shift.starts <= run.ended < shift.ends]
