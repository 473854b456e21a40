"""Where a defect crowds in the order of building and of testing: one window, and each stretch of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

import numpy as np
import polars as pl

from eol.facts.trace_tests import SPEAKS
from eol.facts.trace_units import Axis, Codes, Flags, TraceUnits
from eol.statistics.scan import Window, scan_sequence
from eol.statistics.stretches import AffectedStretch, affected_stretches

_ROUNDS = 4  # of stretches and shares, each from the other; they settle sooner
_MANY = 1000


@dataclass(frozen=True, slots=True)
class Place:
    """A unit of an order: VIN, build sequence, when it left the line and was tested (UTC), and its shift."""

    vin: str
    build_seq: int | None
    line_off_at: datetime | None
    tested_at: datetime
    shift: str


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of an order: its first and last unit with the defect, and what lies between."""

    first: Place
    last: Place
    defects: int
    units: int


@dataclass(frozen=True, slots=True)
class Order:
    """A defect along one order.

    Attributes:
        axis: `build` or `test`.
        units: units that have a place in it.
        defects: those of them with the defect.
        window: where it crowds most; None where nowhere more than elsewhere.
        p: chance that shuffled units crowd as much anywhere; None without a window.
        usual: share of units with the defect outside the stretches.
        stretches: each stretch with a raised share; none unless p is at most 0.05.
    """

    axis: Axis
    units: int
    defects: int
    window: Span | None
    p: float | None
    usual: float | None
    stretches: tuple[Span, ...]

    @property
    def crowds(self) -> bool:
        """Whether the window is more than chance gives."""
        return self.p is not None and self.p <= SPEAKS


def order_of(units: TraceUnits, axis: Axis, *, among: Flags | None = None) -> Order:
    """Scan one order of the units; those without a place in it are left out.

    Args:
        units: the units.
        axis: which order.
        among: whether a unit takes part; all where None.
    """
    places = in_order(units.frame, axis, among)
    defect = np.flatnonzero(units.defect[places])
    window = _scanned(defect, units=len(places), stratum=units.model[places])
    if window is None:
        return Order(axis, len(places), len(defect), None, None, None, ())
    found = AffectedStretch(
        window.first, window.last, window.defects, window.units, window.log_ratio
    )
    told: tuple[AffectedStretch, ...] = (found,)
    usual = _usual(defect, len(places), told)
    if window.p <= SPEAKS:
        told, usual = _stretches(defect, len(places), told)
    spans = tuple(_span(units.frame, places, one, axis) for one in told)
    whole = _span(units.frame, places, found, axis)
    shown = spans if window.p <= SPEAKS else ()
    return Order(axis, len(places), len(defect), whole, window.p, usual, shown)


def in_order(frame: pl.DataFrame, axis: Axis, among: Flags | None = None) -> Codes:
    """Return the places of the units in one order; a place of the build order may be unknown."""
    told = frame if among is None else frame.filter(pl.Series(among))
    if axis == "build":
        told = told.filter(pl.col("build_seq").is_not_null()).sort("build_seq", "place")
    else:
        told = told.sort("at", "place")
    return told["place"].to_numpy().astype(np.int64)


def raised_stretches(defect: Codes, *, units: int, stratum: Codes) -> tuple[AffectedStretch, ...]:
    """Return the stretches of any order in which a defect runs at a raised share; none where by chance.

    Args:
        defect: places of the units with it, ascending.
        units: units in the order.
        stratum: the unit's model as a code, one a unit.
    """
    window = _scanned(defect, units=units, stratum=stratum)
    if window is None or window.p > SPEAKS:
        return ()
    found = AffectedStretch(
        window.first, window.last, window.defects, window.units, window.log_ratio
    )
    return _stretches(defect, units, (found,))[0]


def _scanned(defect: Codes, *, units: int, stratum: Codes) -> Window | None:
    draws = 999 if len(defect) <= _MANY else 99
    return scan_sequence(defect, units=units, stratum=stratum, draws=draws)


def _stretches(
    defect: Codes, units: int, told: tuple[AffectedStretch, ...]
) -> tuple[tuple[AffectedStretch, ...], float]:
    """Find the stretches with the shares of the window, then shares by the stretches, until both agree."""
    for _ in range(_ROUNDS):
        inside = sum(one.units for one in told)
        raised = (sum(one.defects for one in told) + 0.5) / (inside + 1)
        usual = _usual(defect, units, told)
        if not usual < raised:
            break
        found = affected_stretches(defect, units=units, usual=usual, raised=raised)
        if not found or found == told:
            break
        told = found
    return told, _usual(defect, units, told)


def _usual(defect: Codes, units: int, told: tuple[AffectedStretch, ...]) -> float:
    """Share outside; half a unit more keeps it above 0."""
    outside = len(defect) - sum(one.defects for one in told)
    return (outside + 0.5) / (units - sum(one.units for one in told) + 1)


def _span(frame: pl.DataFrame, places: Codes, found: AffectedStretch, axis: Axis) -> Span:
    first, last = (_place(frame, int(places[n]), axis) for n in (found.first, found.last))
    return Span(first, last, found.defects, found.units)


def _place(frame: pl.DataFrame, place: int, axis: Axis) -> Place:
    row = frame.row(place, named=True)
    day, shift = ("line_date", "line_shift") if axis == "build" else ("production_date", "shift")
    return Place(
        vin=row["vin"],
        build_seq=row["build_seq"],
        line_off_at=row["line_off_at"],
        tested_at=row["at"],
        shift=f"{row[day]}/{row[shift] or 'between'}" if row[day] is not None else "",
    )
