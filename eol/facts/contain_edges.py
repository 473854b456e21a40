"""Where a suspect list begins and ends, and why: a margin of clean units, a known change, or what is asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import polars as pl

from eol.errors import UsageError
from eol.facts.contain_question import ContainQuestion
from eol.facts.trace_order import raised_stretches
from eol.statistics.containment import FEW, lowest_share, suspect_range
from eol.statistics.proportion import clopper_pearson


@dataclass(frozen=True, slots=True)
class Edge:
    """A run of suspect units in an order, from its first to its last.

    Attributes:
        first_vin: the first suspect unit, `first_seq` its build sequence; `last_vin` likewise.
        units: suspect units in it, at risk alone.
        confirmed: units in it known to have the fault.
        share: share of units with the fault that the margin rests on; None without a margin.
        margin: clean units at risk in a row that end the doubt (95 %); None without one.
        cautious: whether `share` is a lower bound: a safety-related code, or few confirmed units.
        risk_share: share of units with the fault for the risk after a pass: the share seen, where
            cautious its upper bound; None where nothing tells it, as with one confirmed unit.
        first_reason: why it begins there; `last_reason` why it ends there.
    """

    first_vin: str
    last_vin: str
    first_seq: int | None
    last_seq: int | None
    units: int
    confirmed: int
    share: float | None
    margin: int | None
    cautious: bool
    risk_share: float | None
    first_reason: str
    last_reason: str


@dataclass(frozen=True, slots=True)
class Suspects:
    """The edges of a list, and the VINs between each two of them, in order."""

    edges: tuple[Edge, ...]
    vins: tuple[tuple[str, ...], ...]


def by_sequence(
    units: pl.DataFrame, confirmed: set[str], question: ContainQuestion, *, safety_related: bool
) -> Suspects:
    """Find the suspect units round confirmed ones in build order.

    Args:
        units: units at risk; those without a build sequence have no place.
        confirmed: VINs known to have the fault.
        question: with known changes, and the confirmed units where they were named.
        safety_related: whether margins rest on the lower bound of the share.

    Raises:
        UsageError: no confirmed unit has a place, or nothing crowds and none was named.
    """
    placed = units.filter(pl.col("build_seq").is_not_null()).sort("build_seq", "vin")
    places = np.flatnonzero(placed["vin"].is_in(list(confirmed)).to_numpy())
    if not len(places):
        raise UsageError(
            "no confirmed unit is among the units at risk with a build sequence",
            hint="Name units with --vin, or the span with --from and --to.",
        )
    spans = [(int(places[0]), int(places[-1]), len(places))]
    if not question.vins:
        spans = _crowded(places, placed)
    edges = [_edge(placed, span, question, safety_related=safety_related) for span in spans]
    return Suspects(tuple(edge for edge, _ in edges), tuple(vins for _, vins in edges))


def _crowded(
    places: np.ndarray[tuple[int], np.dtype[np.int64]], placed: pl.DataFrame
) -> list[tuple[int, int, int]]:
    model = placed["model"].fill_null("").rank("dense").to_numpy().astype(np.int64)
    found = raised_stretches(places, units=placed.height, stratum=model)
    if not found:
        raise UsageError(
            f"the {len(places)} units with it crowd nowhere more than chance does",
            hint="Name confirmed units with --vin, or what they share with --lot, --where or --bay.",
        )
    return [(one.first, one.last, one.defects) for one in found]


def _edge(
    placed: pl.DataFrame,
    span: tuple[int, int, int],
    question: ContainQuestion,
    *,
    safety_related: bool,
) -> tuple[Edge, tuple[str, ...]]:
    first, last, confirmed = span
    before, after = _changes(placed, question, first, last)
    found = suspect_range(
        first,
        last,
        confirmed=confirmed,
        units=placed.height,
        change_before=before,
        change_after=after,
        safety_related=safety_related,
    )
    inside = placed[found.first : found.last + 1]
    edge = Edge(
        first_vin=inside["vin"][0],
        last_vin=inside["vin"][-1],
        first_seq=inside["build_seq"][0],
        last_seq=inside["build_seq"][-1],
        units=found.units,
        confirmed=confirmed,
        share=found.share,
        margin=found.margin,
        cautious=found.cautious,
        risk_share=_risk_share(confirmed, last - first + 1, cautious=found.cautious),
        first_reason=_reason(found.first_reason, found.margin),
        last_reason=_reason(found.last_reason, found.margin),
    )
    return edge, tuple(inside["vin"])


def _risk_share(confirmed: int, seen: int, *, cautious: bool) -> float | None:
    """Share for the risk after a pass; one or two confirmed units with none between give none."""
    if confirmed == seen and confirmed < FEW:
        return None
    return clopper_pearson(confirmed, seen, confidence=0.9).high if cautious else confirmed / seen


def _changes(
    placed: pl.DataFrame, question: ContainQuestion, first: int, last: int
) -> tuple[int | None, int | None]:
    """Places of the units at known changes, where those lie on the right side of the confirmed ones."""
    sequence = placed["build_seq"].to_numpy()
    before = after = None
    if question.change_before is not None:
        before = int(np.searchsorted(sequence, question.change_before))
        if before > first and question.vins:
            raise UsageError(_wrong_side(int(sequence[first])), where="--change-before")
    if question.change_after is not None:
        after = int(np.searchsorted(sequence, question.change_after, side="right")) - 1
        if after < last and question.vins:
            raise UsageError(_wrong_side(int(sequence[last])), where="--change-after")
    return (
        before if before is not None and before <= first else None,
        after if after is not None and after >= last else None,
    )


def _wrong_side(sequence: int) -> str:
    return f"the change lies on the wrong side of the confirmed unit {sequence}"


def _reason(reason: str, margin: int) -> str:
    if reason == "margin":
        return f"margin of {margin} units at risk" if margin > 1 else "margin of one unit at risk"
    return reason


def whole_set(
    units: pl.DataFrame, confirmed: set[str], *, tested: int, reason: str, safety_related: bool
) -> Suspects:
    """Take all units of a lot or an attribute range: what holds them together is their edge.

    Args:
        units: the units, in order.
        confirmed: VINs known to have the fault.
        tested: how many of them were tested.
        reason: what holds them together.
        safety_related: whether the risk rests on the upper bound of the share.

    Raises:
        UsageError: there is no such unit.
    """
    if units.is_empty():
        raise UsageError(f"no unit has {reason}", hint="Look further back with --from.")
    found = int(units["vin"].is_in(list(confirmed)).sum())
    cautious = safety_related or found < FEW
    share = found / tested if tested else None
    if cautious and tested:
        share = clopper_pearson(found, tested, confidence=0.9).high
    edge = Edge(
        first_vin=units["vin"][0],
        last_vin=units["vin"][-1],
        first_seq=units["build_seq"][0],
        last_seq=units["build_seq"][-1],
        units=units.height,
        confirmed=found,
        share=None,
        margin=None,
        cautious=cautious,
        risk_share=share,
        first_reason=f"first unit with {reason}",
        last_reason=f"last unit with {reason}",
    )
    return Suspects((edge,), (tuple(units["vin"]),))


def edge_words(edge: Edge) -> tuple[str, ...]:
    """Write an edge: from where to where, how many, and why."""
    where = f"{_named(edge.first_seq, edge.first_vin)} to {_named(edge.last_seq, edge.last_vin)}"
    words = [
        f"{where}: {edge.units} units, {edge.confirmed} of them confirmed",
        f"begins there: {edge.first_reason}; ends there: {edge.last_reason}",
    ]
    if edge.share is not None:
        kind = (
            "at least, with 95 % confidence"
            if edge.cautious
            else "seen between the confirmed units"
        )
        words.append(f"the margin rests on {100 * edge.share:.2g} per hundred units, {kind}")
    return tuple(words)


def _named(sequence: int | None, vin: str) -> str:
    return vin if sequence is None else str(sequence)


def lower_bound(good: int, checks: int) -> float:
    """Give the sensitivity that reference checks prove at least: the one-sided 95 % lower bound."""
    return lowest_share(good, checks) if good else 0.0


__all__: Sequence[str] = [
    "Edge",
    "Suspects",
    "by_sequence",
    "edge_words",
    "lower_bound",
    "whole_set",
]
