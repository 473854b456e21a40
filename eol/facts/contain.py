"""How far a fault reaches: the suspect units, why the list begins and ends there, and what is known of each."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

import polars as pl

from eol.errors import UsageError
from eol.facts.contain_bay import bay_test, by_bay
from eol.facts.contain_edges import Edge, Suspects, by_sequence, whole_set
from eol.facts.contain_evidence import (
    EVIDENCE,
    Sight,
    SuspectUnit,
    evidence_of,
    place_words,
    risk_of,
)
from eol.facts.contain_question import ContainQuestion, check_question, meeting
from eol.facts.reader import Reader, Row, rows
from eol.facts.trace import asked, asked_span


@dataclass(frozen=True, slots=True)
class SuspectList:
    """A suspect list, before it is kept.

    Attributes:
        question: what was asked.
        test: the test that finds the fault.
        title: name of the code in words.
        safety_related: whether the catalogue calls it so; `handling` its words of caution.
        data_clock: how far the data reach, in the plant's zone.
        edges: where it begins and ends, and why; several where the fault crowds several times.
        units: the suspect units, in order, each once.
        sensitivity: words on what a pass proves here.
        left_out: units of the span that cannot have the fault (rule 10).
        elsewhere: units with the fault outside all edges.
    """

    question: ContainQuestion
    test: str
    title: str | None
    safety_related: bool
    handling: str | None
    data_clock: datetime
    edges: tuple[Edge, ...]
    units: tuple[SuspectUnit, ...]
    sensitivity: tuple[str, ...]
    left_out: int
    elsewhere: int

    @property
    def by_evidence(self) -> tuple[tuple[str, int], ...]:
        """How many units there are of each class of evidence."""
        counts = [(name, sum(unit.evidence == name for unit in self.units)) for name in EVIDENCE]
        return tuple((name, n) for name, n in counts if n)


def suspect_list(reader: Reader, question: ContainQuestion) -> SuspectList:
    """Tell how far a fault reaches.

    Args:
        reader: the published copy of the store.
        question: the fault, the confirmed units and what holds the others together. With confirmed
            units named: the margin round them in build order, among units that meet the conditions.
            With a bay: what it passed. With conditions or a lot alone: all units that meet them.
            Else: the margin round each stretch in which the code crowds.

    Raises:
        UsageError: the question cannot be asked or answered; what is wrong and what there is.
    """
    check_question(question)
    told, span = _told(reader, question)
    units = reader.run("contain", "unit", **span)
    found = {row["vin"]: row for row in rows(reader.run("contain", "found", **span))}
    confirmed = _confirmed(units, question, set(found))
    cannot = _cannot(reader, question, told, span)
    at_risk = units.filter(~pl.col("vin").is_in(list(cannot - confirmed)))
    narrowed = meeting(reader, question, at_risk)
    suspects, sight = _suspects(reader, question, told, span, narrowed, confirmed)
    inside = {vin for vins in suspects.vins for vin in vins}
    return SuspectList(
        question=question,
        test=span["test"],
        title=told["title"],
        safety_related=told["safety_related"],
        handling=told["handling"],
        data_clock=_data_clock(reader, span["to_at"]),
        edges=suspects.edges,
        units=_units(reader, told, suspects, at_risk, confirmed, found, sight),
        sensitivity=_sight_words(sight),
        left_out=units.height - at_risk.height,
        elsewhere=len(confirmed - inside),
    )


def _told(reader: Reader, question: ContainQuestion) -> tuple[Row, dict[str, Any]]:
    """Return what the catalogue says of the code, and the parameters that the queries share."""
    if question.code is None:
        from_at, to_at = asked_span(reader, question.since, question.until)
        test = bay_test(reader, question)
        told: Row = {"title": None, "safety_related": False, "handling": None, "only_some": False}
        asked_for: tuple[str | None, str | None] = (None, None)
    else:
        more, told = asked(
            reader,
            question.code,
            zone=question.zone,
            test=question.test,
            since=question.since,
            until=question.until,
        )
        from_at, to_at, test = more.from_at, more.to_at, more.test
        asked_for = (question.code, question.zone)
    code, zone = asked_for
    return told, {"test": test, "code": code, "zone": zone, "from_at": from_at, "to_at": to_at}


def _data_clock(reader: Reader, like: datetime) -> datetime:
    """How far the data reach, in the zone of another time."""
    clock = reader.view("as_of")["as_of"][0]
    return like if clock is None else clock.astimezone(like.tzinfo)


def _confirmed(units: pl.DataFrame, question: ContainQuestion, found: set[str]) -> set[str]:
    """The units named, else those of the span on which the code was found."""
    known = set(units["vin"])
    if not question.vins:
        return found & known
    missing = [vin for vin in question.vins if vin not in known]
    if missing:
        raise UsageError(
            f"no production unit of the span has the VIN {missing[0]}",
            hint="Look further back with --from; eol unit VIN tells what is known of it.",
        )
    return set(question.vins)


def _cannot(reader: Reader, question: ContainQuestion, told: Row, span: dict[str, Any]) -> set[str]:
    if question.code is None or not told["only_some"]:
        return set()
    return set(reader.run("contain", "not_at_risk", **span)["vin"])


def _suspects(
    reader: Reader,
    question: ContainQuestion,
    told: Row,
    span: dict[str, Any],
    units: pl.DataFrame,
    confirmed: set[str],
) -> tuple[Suspects, Sight]:
    checks = {
        (row["station"], row["bay"]): (row["checks"], row["good"])
        for row in rows(reader.run("contain", "check", **span))
    }
    sight = Sight(question.sensitivity, checks)
    if question.bay is not None:
        suspects, place = by_bay(reader, question, span, units, confirmed)
        return suspects, Sight(question.sensitivity, checks, place)
    safety = bool(told["safety_related"])
    if (question.where or question.lot) and not question.vins:
        reason = " and ".join([*question.where, *([f"lot {question.lot}"] if question.lot else [])])
        tested = units.filter(pl.col("attempts") > 0).height
        return (
            whole_set(units, confirmed, tested=tested, reason=reason, safety_related=safety),
            sight,
        )
    return by_sequence(units, confirmed, question, safety_related=safety), sight


def _units(
    reader: Reader,
    told: Row,
    suspects: Suspects,
    units: pl.DataFrame,
    confirmed: set[str],
    found: dict[str, Row],
    sight: Sight,
) -> tuple[SuspectUnit, ...]:
    share: dict[str, float | None] = {}
    for edge, vins in zip(suspects.edges, suspects.vins, strict=True):
        for vin in vins:
            share[vin] = max(
                (p for p in (share.get(vin), edge.risk_share) if p is not None), default=None
            )
    by_vin = {row["vin"]: row for row in rows(units) if row["vin"] in share}
    places = _by_vin(reader, "place", list(share))
    words = _by_vin(reader, "handling", list(share))
    made = []
    for vin, p in share.items():
        row = by_vin[vin]
        evidence = evidence_of(
            row,
            confirmed=vin in confirmed or vin in found,
            repaired=bool(found.get(vin, {}).get("repaired")),
        )
        here = places.get(vin, {})
        made.append(
            SuspectUnit(
                vin=vin,
                build_seq=row["build_seq"],
                evidence=evidence,
                place=place_words(here.get("kind"), here.get("place"), row["station"]),
                residual_risk=risk_of(row, evidence, p, sight),
                handling=_joined(told["handling"], words.get(vin, {}).get("handling")),
            )
        )
    return tuple(made)


def _by_vin(reader: Reader, name: str, vins: list[str]) -> dict[str, Row]:
    return {row["vin"]: row for row in rows(reader.run("contain", name, vins=vins))}


def _joined(fault: str | None, others: str | None) -> str | None:
    """The fault's own words first; each sentence once."""
    if fault and others and fault in others:
        return others
    return " ".join(part for part in (fault, others) if part) or None


def _sight_words(sight: Sight) -> tuple[str, ...]:
    words = []
    if sight.given is not None:
        of = f" at {_place(*sight.bay)}" if sight.bay else ""
        words.append(f"a pass{of} finds {100 * sight.given:.3g} of 100 faulty units, as given")
    if sight.given is None or sight.bay is not None:
        for (station, bay), (checks, good) in sorted(sight.checks.items(), key=str):
            least = sight.of(station, bay, unchecked=False)
            if (station, bay) != sight.bay or sight.given is None:
                told = f"{good} of {checks} reference checks good"
                words.append(
                    f"{_place(station, bay)}: {told}, so at least {100 * least:.0f} of 100 found"
                )
        if not sight.checks:
            words.append("no reference check tells what a pass proves: it is not credited")
    return tuple(words)


def _place(station: str | None, bay: str | None) -> str:
    return " bay ".join(part for part in (station, bay) if part)
