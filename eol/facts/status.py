"""The published copy in, what can be believed of it out: the answer behind `eol status`.

Of the shift that is asked about `eol.facts.believe` tells; here stands what is told of the whole plant.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from eol.errors import UsageError
from eol.facts.believe import Belief, believe
from eol.facts.queue import RepairQueue, queue_facts
from eol.facts.reader import Reader, rows
from eol.facts.span import calendar, span_up_to
from eol.facts.units import open_units
from eol.facts.unknown_vins import UnknownVin, unknown_vins
from eol.facts.which_shift import named_shift

_LOST = (
    ("escapes", "{n} times a unit went past a proof event without proof of a required test", True),
    ("rejected_rows", "{n} rows were refused; rejected_row tells each with its reason", True),
    (
        "suspect_doubles",
        "{n} runs look like a re-export moved by an hour and are not counted",
        True,
    ),
    ("waiting_rows", "{n} rows wait for the name of their unit", False),
    ("waiting_parts", "{n} findings or readings wait for their run", False),
    (
        "void_runs",
        "{n} runs do not count: weak, harsh, missing, bypassed, aborted or of the bench",
        False,
    ),
)
"""Counts that are told of a shift, new and in all; here only while no shift has ended."""

_FINDINGS = (
    (
        "without_line_off",
        "{n} production units have no time of leaving the line and are in no cohort",
        False,
    ),
    ("not_in_schedule", "{n} units are known from tests alone, not from the units feed", False),
    ("undecided", "{n} units off the line are not decided yet", False),
)


@dataclass(frozen=True, slots=True)
class PlantStatus:
    """What the store holds and what of it needs a look.

    Attributes:
        plant: name of the plant.
        data_clock: newest run end or event time received, UTC; None in an empty store.
        counts: counts by name, as in `queries/status/020_account.sql`, and open escapes (rule 14).
        feed_rows: one row a feed: feed, files, rows, rejected, last made at, last loaded at (UTC).
        queue: the repair queue up to the shift that is told of; None while no shift has ended.
        belief: whether the figures of the shift can be believed; None while no shift has ended.
        findings: a sentence for each count that is not 0, and for each unknown VIN.
        unknown_vins: VINs of the last 30 days that only tests know, with the nearest scheduled ones (rule 17).
        needs_a_look: True where one of them asks for a person.
    """

    plant: str
    data_clock: datetime | None
    counts: dict[str, int]
    feed_rows: tuple[tuple[object, ...], ...]
    belief: Belief | None
    findings: tuple[str, ...]
    unknown_vins: tuple[UnknownVin, ...]
    needs_a_look: bool
    queue: RepairQueue | None = None

    @property
    def headline(self) -> str:
        """One line: plant, data clock, units and runs."""
        until = f"{self.data_clock:%Y-%m-%d %H:%M} UTC" if self.data_clock else "no data yet"
        return (
            f"{self.plant}: data received up to {until};"
            f" {self.counts['units']} units, {self.counts['runs']} runs"
        )


def plant_status(reader: Reader, *, now: datetime, shift: str | None = None) -> PlantStatus:
    """Return what the published copy holds and what of it needs a look.

    Args:
        reader: the published copy of the store.
        now: the wall clock, aware; tells which stations are silent, and nothing else.
        shift: `DATE/SHIFT`, such as `2026-09-08/day`; the last that ended by the data clock where None.

    Raises:
        UsageError: the calendar has no such shift.
    """
    (account,) = reader.run("status", "account").iter_rows(named=True)
    counts = {name: int(account[name]) for name in account if name not in {"plant", "data_clock"}}
    belief = _belief(reader, now, shift)
    counts["escapes"] = _escapes(reader, belief)
    unknown = unknown_vins(reader, account["data_clock"]) if counts["not_in_schedule"] else ()
    tellable = _FINDINGS if belief else (*_LOST, *_FINDINGS)
    told = [(text, look, counts[name]) for name, text, look in tellable if counts[name]]
    return PlantStatus(
        plant=account["plant"],
        data_clock=account["data_clock"],
        counts=counts,
        feed_rows=tuple(reader.run("status", "feed").iter_rows()),
        belief=belief,
        findings=(*(text.format(n=n) for text, _, n in told), *map(str, unknown)),
        unknown_vins=unknown,
        needs_a_look=bool(belief and belief.needs_a_look) or any(look for _, look, _ in told),
        queue=_queue(reader, belief),
    )


def _queue(reader: Reader, belief: Belief | None) -> RepairQueue | None:
    """The repair queue up to the shift that is told of."""
    if belief is None:
        return None
    asked = belief.facts.asked
    span = span_up_to(calendar(reader), last_date=asked.production_date, shift=asked.shift)
    return queue_facts(reader, span, open_units(rows(reader.view("open_unit")), {}))


def _escapes(reader: Reader, belief: Belief | None) -> int:
    """Return the open escapes, which a belief has counted already."""
    return belief.facts.losses.escapes.all if belief else reader.view("escape").height


def _belief(reader: Reader, now: datetime, shift: str | None) -> Belief | None:
    if shift is None:
        return believe(reader, now=now)
    production_date, name = named_shift(reader, shift)
    if name is None:
        raise UsageError(
            "what was tested between shifts has no status of its own",
            hint="Name a shift, as DATE/SHIFT.",
        )
    return believe(reader, now=now, production_date=production_date, shift=name)
