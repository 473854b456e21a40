"""One line that says where to look first: `sealer robot R07, sealer bead up to 4.73 mm: 46 of 560 …`."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import polars as pl

from eol.facts.trace_causes import Cause, Factor
from eol.facts.trace_order import Order, in_order
from eol.facts.trace_result import FoundAt
from eol.facts.trace_tests import Compared
from eol.facts.trace_units import Codes, Flags, TraceUnits

MOSTLY = 0.9
"""Share of the findings at one step from which the line names the step."""

_NAMED = 2


def start_line(
    units: TraceUnits,
    causes: Sequence[Cause],
    tested: Sequence[Compared],
    orders: Sequence[Order],
    steps: Sequence[FoundAt],
) -> str | None:
    """Write where to start: the first cause, counted in the shifts in which the defect crowds.

    Args:
        units: the units.
        causes: what may be named, the most telling first.
        tested: the factors that were tested, with the units that have them.
        orders: the orders of building and of testing.
        steps: where the findings lie.

    Returns:
        The line, without a word about persons (rule 18); None where nothing may be named.
    """
    cause = next((one for one in causes if one.lead.kind != "evaluator"), None)
    if cause is None:
        return None
    factors = _shown(cause)
    flags = [
        one
        for one in tested
        if (one.column.name, one.level) in {(f.name, f.level) for f in factors}
    ]
    has = np.logical_and.reduce([one.has for one in flags])
    known = np.logical_and.reduce([one.known for one in flags])
    shifts = _crowded_shifts(units, orders)
    here = known & np.isin(units.line_shift, shifts) if len(shifts) else known
    name = ", ".join(f"{factor.name} {factor.level}" for factor in factors)
    return f"{name}{_step(steps)}: {_counts(units, has, here)}{_when(len(shifts))}"


def _shown(cause: Cause) -> list[Factor]:
    """The lead and what goes with it but says more, categories first; a value told already is left out."""
    told: list[Factor] = []
    for factor in sorted(cause.factors, key=lambda f: (f.auc is not None, f.name)):
        if factor.level not in {other.level for other in told} and factor.kind != "evaluator":
            told.append(factor)
    kept = [factor for factor in told if factor == cause.lead]
    others = [factor for factor in told if factor != cause.lead]
    chosen = [*kept, *others][:_NAMED]
    return [factor for factor in told if factor in chosen]


def _crowded_shifts(units: TraceUnits, orders: Sequence[Order]) -> Codes:
    """The shifts of the line that a stretch of the build order reaches into."""
    places = in_order(units.frame, "build")
    vins = units.frame["vin"].gather(pl.Series(places)).to_list()
    found: set[int] = set()
    for order in orders:
        if order.axis == "build" and order.crowds:
            where = {vin: n for n, vin in enumerate(vins)}
            for span in order.stretches:
                inside = places[where[span.first.vin] : where[span.last.vin] + 1]
                found |= set(units.line_shift[inside].tolist())
    return np.array(sorted(found), dtype=np.int64)


def _counts(units: TraceUnits, has: Flags, here: Flags) -> str:
    with_it, rest = here & has, here & ~has
    a, b = (int((part & units.defect).sum()) for part in (with_it, rest))
    return f"{a:,} of {int(with_it.sum()):,} against {b:,} of {int(rest.sum()):,}"


def _step(steps: Sequence[FoundAt]) -> str:
    if not steps or steps[0].name is None:
        return ""
    top = steps[0]
    plain = top.findings >= MOSTLY * top.all and (top.other_share or 0.0) <= 1 - MOSTLY
    return f", on {top.name}" if plain else ""


def _when(shifts: int) -> str:
    if not shifts:
        return ""
    return f" in {shifts} shifts" if shifts > 1 else " in one shift"
