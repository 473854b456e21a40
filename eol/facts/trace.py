"""Where a defect comes from: two orders, every factor taken crudely and within shift and model, and causes."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from difflib import get_close_matches
from typing import Any, cast
from zoneinfo import ZoneInfo

import polars as pl

from eol.errors import UsageError
from eol.facts.reader import Reader, Row, rows
from eol.facts.trace_causes import Factor, causes, judged
from eol.facts.trace_columns import trace_columns
from eol.facts.trace_order import order_of
from eol.facts.trace_result import FoundAt, Trace
from eol.facts.trace_start import start_line
from eol.facts.trace_tests import Compared, Comparison
from eol.facts.trace_units import TraceQuestion, TraceUnits, trace_units
from eol.facts.which_shift import named_shift
from eol.words import EQUIPMENT

USUAL_DAYS = 90
"""How far a trace looks back from the data clock where no shift is named."""


def trace_code(
    reader: Reader,
    code: str,
    *,
    zone: str | None = None,
    test: str | None = None,
    since: str | None = None,
    until: str | None = None,
    persons: bool = False,
) -> Trace:
    """Tell where a defect comes from.

    Args:
        reader: the published copy of the store.
        code: the code; upper and lower case differ.
        zone: only defects there; any zone where None.
        test: the test, where several have the code.
        since: first shift of testing, as DATE/SHIFT; 90 days before the last where None.
        until: last shift of testing; the data clock where None.
        persons: whether figures about persons may be told (plant.toml, rule 18).

    Raises:
        UsageError: nobody knows the code, the zone or a shift, or several tests have the code.
    """
    question, told = asked(reader, code, zone=zone, test=test, since=since, until=until)
    units = trace_units(reader, question, only_some=told["only_some"])
    return traced(reader, question, told, units, persons=persons)


def asked(
    reader: Reader,
    code: str,
    *,
    zone: str | None,
    test: str | None,
    since: str | None,
    until: str | None,
) -> tuple[TraceQuestion, Row]:
    """Return the question and what the catalogue says of the code in its test.

    Raises:
        UsageError: as `trace_code`.
    """
    from_at, to_at = asked_span(reader, since, until)
    told = rows(reader.run("trace", "test_with_code", code=code, from_at=from_at, to_at=to_at))
    if not told:
        raise _unknown_code(reader, code)
    chosen = [row for row in told if test in (None, row["test"])]
    with_it = [row for row in chosen if row["defects"]] or chosen
    if told[0]["owner_area"] == EQUIPMENT:
        raise UsageError(f"the code {code} is a fault of the bench and never a defect (rule 6)")
    if not with_it or len(with_it) > 1:
        names = ", ".join(row["test"] for row in with_it or told)
        words = "is found in several tests" if with_it else f"is none of the test {test}"
        what = f"the code {code} {words}"
        raise UsageError(what, hint=f"Name one with --test: {names}.")
    _check_zone(reader, code, zone)
    return TraceQuestion(code, with_it[0]["test"], zone, from_at, to_at), with_it[0]


def asked_span(reader: Reader, since: str | None, until: str | None) -> tuple[datetime, datetime]:
    """Return the span of the shifts asked for, in the plant's zone; 90 days up to the data clock where none is.

    Raises:
        UsageError: there is no such shift, or the span is empty.
    """
    first = _shift_row(reader, since)
    last = _shift_row(reader, until)
    clock = last["data_clock"] or datetime(2000, 1, 1, tzinfo=UTC)
    to_at = last["ends_at"] if until else clock + timedelta(microseconds=1)
    from_at = first["starts_at"] if since else to_at - timedelta(days=USUAL_DAYS)
    if from_at >= to_at:
        raise UsageError(
            "the span from --from to --to is empty", hint="Name the earlier shift first."
        )
    zone = ZoneInfo(last["timezone"])
    return from_at.astimezone(zone), to_at.astimezone(zone)


def traced(
    reader: Reader, question: TraceQuestion, told: Row, units: TraceUnits, *, persons: bool
) -> Trace:
    """Answer a question whose units were read already."""
    columns, tested = _tested(reader, question, units)
    factors = judged(units, tested)
    shown = [n for n, factor in enumerate(factors) if persons or factor.kind != "evaluator"]
    tested = [tested[n] for n in shown]
    named = causes(units, tested, [factors[n] for n in shown])
    orders = (order_of(units, "build"), order_of(units, "test"))
    steps = _steps(reader, question, units.found)
    return Trace(
        code=question.code,
        title=told["title"],
        test=question.test,
        zone=question.zone,
        from_at=question.from_at,
        to_at=question.to_at,
        first_at=cast(datetime | None, units.frame["at"].min()),
        last_at=cast(datetime | None, units.frame["at"].max()),
        safety_related=told["safety_related"],
        handling=told["handling"],
        units=units.n,
        defects=int(units.defect.sum()),
        unknown_at_risk=units.unknown_at_risk,
        zones=_zones(units.found),
        steps=steps,
        orders=orders,
        factors=tuple(sorted((factors[n] for n in shown), key=_telling)),
        same=tuple(sorted(columns - {one.column.name for one in tested} - {"evaluator"})),
        causes=named,
        start=start_line(units, named, tested, orders, steps),
        evaluator_differs=any(f.kind == "evaluator" and f.verdict == "named" for f in factors),
    )


def _tested(
    reader: Reader, question: TraceQuestion, units: TraceUnits
) -> tuple[set[str], list[Compared]]:
    """Test every factor; the names of all, and what was found of those with more than one value."""
    names: set[str] = set()
    tested: list[Compared] = []
    if units.defect.all() or not units.defect.any():
        return names, tested
    comparison = Comparison(units)
    for column in trace_columns(reader, question, units):
        names.add(column.name)
        one = comparison.test(column)
        if one is not None:
            tested.append(one)
    return names, tested


def _telling(factor: Factor) -> tuple[Any, ...]:
    within = 2.0 if factor.within_p is None else factor.within_p
    return (factor.verdict != "named", within, factor.crude_p, factor.name)


def _zones(found: pl.DataFrame) -> tuple[FoundAt, ...]:
    return tuple(FoundAt(row["zone"], row["n"], found.height) for row in _counted(found, "zone"))


def _steps(reader: Reader, question: TraceQuestion, found: pl.DataFrame) -> tuple[FoundAt, ...]:
    others = rows(reader.run("trace", "other_steps", **question.values))
    all_others = sum(row["findings"] for row in others)
    by_step = {row["step"]: row["findings"] for row in others}
    return tuple(
        FoundAt(
            row["step"],
            row["n"],
            found.height,
            by_step.get(row["step"], 0) / all_others if all_others else None,
        )
        for row in _counted(found, "step")
    )


def _counted(found: pl.DataFrame, name: str) -> list[Row]:
    counted = found.group_by(name).agg(n=pl.len())
    return rows(counted.sort(["n", name], descending=[True, False], nulls_last=True))


def _shift_row(reader: Reader, text: str | None) -> Row:
    day: date | None = None
    shift: str | None = None
    if text is not None:
        day, shift = named_shift(reader, text)
    found = rows(reader.run("trace", "span", production_date=day, shift=shift))[0]
    if text is not None and found["starts_at"] is None:
        raise UsageError(
            f"'{text}' is no shift with a start and an end", hint="Name a shift, as DATE/SHIFT."
        )
    return found


def _unknown_code(reader: Reader, code: str) -> UsageError:
    known = reader.run("trace", "known_code")["code"].unique().to_list()
    near = get_close_matches(code, known, n=3, cutoff=0.4)
    hint = f"Nearest: {', '.join(near)}." if near else 'eol sql "FROM defect_code" lists the codes.'
    return UsageError(f"no code is named {code}", hint=hint)


def _check_zone(reader: Reader, code: str, zone: str | None) -> None:
    if zone is None:
        return
    known = reader.run("trace", "known_code")
    everywhere = set(known["zone"].drop_nulls()) | set(reader.view("zone")["zone"].drop_nulls())
    if zone not in everywhere:
        here = sorted(known.filter(pl.col("code") == code)["zone"].drop_nulls())
        raise UsageError(
            f"no zone is named {zone}", hint=f"{code} was found at: {', '.join(here)}."
        )
