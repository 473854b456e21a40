"""What a trace says, in sentences: for the terminal, the page and the table of answers."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from functools import partial

from eol.facts.trace_causes import Cause, Factor
from eol.facts.trace_order import Order, Span
from eol.facts.trace_result import FoundAt, Trace
from eol.words import Answer

QUESTION = "where_it_comes_from"

METHOD = (
    "Cochran-Mantel-Haenszel or exact within shift and model, stratified shuffles for numbers; Holm"
)

_AXIS = {"build": "build order", "test": "order of testing"}


def headline(trace: Trace) -> str:
    """Write what was asked and how many had it."""
    name = trace.code + (f" {trace.title}" if trace.title else "")
    place = f" at {trace.zone}" if trace.zone else ""
    first, last = trace.first_at or trace.from_at, trace.last_at or trace.to_at
    days = f"first {trace.test} test {first:%Y-%m-%d} to {last:%Y-%m-%d}"
    return f"{name}{place}: {trace.defects:,} of {trace.units:,} units at risk, {days}"


def sentences(trace: Trace) -> tuple[str, ...]:
    """Write everything that is to be said beside the table of factors."""
    return (*_counts(trace), *_places(trace), *_orders(trace), *_causes(trace), *_beside(trace))


def cause_words(cause: Cause, factors: int) -> str:
    """Write a cause: who had it, how sure that is within shift and model, what goes with it."""
    lead = cause.lead
    held = f"within {lead.within} p {p_words(lead.corrected_p)}, corrected for {factors} factors"
    more = "more" if lead.more else "fewer"
    ratio = f", odds {lead.odds_ratio:.1f} times" if lead.odds_ratio else ""
    words = f"{lead.words}; {more} {held}{ratio}; {explained_words(lead)}"
    if cause.factors[1:]:
        names = ", ".join(f"{other.name} {other.level}" for other in cause.factors[1:])
        words += f"; goes with {names}: one leaves nothing to the other"
    return words


def explained_words(factor: Factor) -> str:
    """Write the excess: how many defects its units would have had without it."""
    over = factor.had - factor.expected
    if over < 0:
        return f"{factor.had} where {factor.expected:.0f} were to be expected"
    return f"{over:.0f} of {factor.defects} beyond the {factor.expected:.0f} to be expected"


def span_words(span: Span, axis: str) -> str:
    """Write a stretch: its first and last unit with the defect, and how many of its units had it."""
    first, last = span.first, span.last
    ends: tuple[object, object] = (first.build_seq, last.build_seq)
    if axis == "test":
        ends = (_moment(first.tested_at), _moment(last.tested_at))
    shifts = first.shift if first.shift == last.shift else f"{first.shift} to {last.shift}"
    return f"{ends[0]} to {ends[1]} ({shifts}): {span.defects} of {span.units}"


def p_words(p: float | None) -> str:
    """Write a p-value: three places, or an upper bound."""
    if p is None:
        return "not to be told"
    return "below 0.001" if p < 0.001 else f"{p:.3f}"


def answer_rows(trace: Trace) -> tuple[Answer, ...]:
    """Return a trace as rows for the table `answer`: where to start, causes and stretches in build order."""
    told = partial(Answer, QUESTION, test=trace.test, code=trace.code, zone=trace.zone)
    start = told("where_to_start", n=trace.units, words=trace.start, method=METHOD)
    named = [
        told(
            "cause",
            subject=f"{factor.name} {factor.level}",
            n=factor.defects + factor.rest,
            value=factor.odds_ratio,
            low=factor.low,
            high=factor.high,
            words=factor.words,
            method=METHOD,
        )
        for cause in trace.causes
        for factor in cause.factors
        if factor.kind != "evaluator"  # never on a page (rule 18)
    ]
    spans = [
        told(
            "build_stretch",
            subject=f"{span.first.build_seq} to {span.last.build_seq}",
            n=span.units,
            value=span.defects / span.units,
            words=span_words(span, "build"),
            method="scan statistic (Kulldorff), stretches by likelihood ratio",
        )
        for order in trace.orders
        if order.axis == "build"
        for span in order.stretches
    ]
    return (*([start] if trace.start else []), *named, *spans)


def found_words(found: tuple[FoundAt, ...], kind: str) -> str:
    """Write where the findings lie: `step joints 138 of 138 (0 % of the other codes)`."""
    parts = []
    for one in found:
        beside = (
            "" if one.other_share is None else f" ({100 * one.other_share:.0f} % of other codes)"
        )
        parts.append(f"{one.name or 'none told'} {one.findings} of {one.all}{beside}")
    return f"{kind} " + ", ".join(parts)


def _counts(trace: Trace) -> Iterator[str]:
    if not trace.units:
        yield "No unit was tested in that time that could have it: there is nothing to compare."
    elif not trace.defects:
        yield "No unit had it at its first counted run: there is nothing to compare."
    elif trace.defects == trace.units:
        yield "Every unit had it: there is no unit without it to compare with."
    elif trace.defects == 1:
        yield "One unit alone had it: whatever it has may be chance."
    if trace.unknown_at_risk:
        yield f"Of {trace.unknown_at_risk} of the units it is not known whether they could have it."


def _places(trace: Trace) -> Iterator[str]:
    if len(trace.zones) > 1:
        yield found_words(trace.zones, "Found at zone")
    if trace.steps and any(step.name for step in trace.steps):
        yield found_words(trace.steps, "Found at step")


def _orders(trace: Trace) -> Iterator[str]:
    for order in trace.orders:
        yield from _order(order)


def _order(order: Order) -> Iterator[str]:
    name = _AXIS[order.axis]
    if order.p is None or order.usual is None:
        return
    if not order.crowds:
        yield f"In {name} it crowds nowhere more than chance does (p {p_words(order.p)})."
        return
    usual = f"elsewhere {100 * order.usual:.2f} per hundred"
    yield f"In {name} it crowds (p {p_words(order.p)}), {usual}:"
    yield from (f"  {span_words(span, order.axis)}" for span in order.stretches)


def _causes(trace: Trace) -> Iterator[str]:
    told = sum(factor.corrected_p is not None for factor in trace.factors)
    if trace.causes:
        yield "May come from:"
        yield from (f"  {cause_words(cause, told)}" for cause in trace.causes)
    elif trace.factors:
        yield f"None of {told} factors stands out within shift and model, corrected for their number."
    for factor in trace.factors:
        if factor.verdict == "perhaps":
            yield f"Perhaps, watch it: {factor.words} (p {p_words(factor.corrected_p)} corrected)."
    if trace.evaluator_differs:
        yield (
            "One evaluator or operator differs from the others of the same shifts; a pseudonym is told"
            " where figures about persons are on in plant.toml."
        )


def _beside(trace: Trace) -> Iterator[str]:
    for verdict, words in (
        ("time alone", "Plain when taken crudely, nothing within shift and model, so no cause"),
        ("not to be told", "Goes with time or model and cannot be compared within a shift"),
    ):
        names = [f"{f.name} {f.level}" for f in trace.factors if f.verdict == verdict]
        if names:
            yield f"{words}: {', '.join(names)}."
    if trace.same:
        yield f"The same on all units with a value: {', '.join(trace.same)}."


def _moment(at: datetime) -> str:
    return f"{at:%Y-%m-%d %H:%M}"
