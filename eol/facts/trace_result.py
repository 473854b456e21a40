"""What a trace found, as values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from eol.facts.trace_causes import Cause, Factor
from eol.facts.trace_order import Order


@dataclass(frozen=True, slots=True)
class FoundAt:
    """How many findings of the code lie at a zone or a step.

    Attributes:
        name: the zone or step, None where none was sent.
        findings: of the code there, of `all` findings of it.
        other_share: share of the test's other codes there; None for zones.
    """

    name: str | None
    findings: int
    all: int
    other_share: float | None = None


@dataclass(frozen=True, slots=True)
class Trace:
    """Where a defect comes from.

    Attributes:
        code: the code, with its title where the catalogue has one.
        zone: where on the unit; None for any.
        from_at: first moment of testing that belongs to it, `to_at` the first that does not; in the
            plant's zone, as all times here.
        first_at: when the first unit was tested, `last_at` the last; None without units.
        units: production units first tested in that time that could have it (rules 7, 10 and 13).
        defects: those that had it at their first counted run (rule 8).
        unknown_at_risk: units of which it is not known whether they could.
        zones: where it was found; `steps` at which step of the test.
        orders: the order of building and of testing.
        factors: every factor that could be looked at, the most telling first.
        same: factors with one and the same value on all units.
        causes: those that may be named, the ones that go together as one.
        start: one line that says where to look first; None where nothing may be named.
        evaluator_differs: whether evaluators or operators differ; which one is told only where
            figures about persons are on (rule 18).
    """

    code: str
    title: str | None
    test: str
    zone: str | None
    from_at: datetime
    to_at: datetime
    first_at: datetime | None
    last_at: datetime | None
    safety_related: bool
    handling: str | None
    units: int
    defects: int
    unknown_at_risk: int
    zones: tuple[FoundAt, ...]
    steps: tuple[FoundAt, ...]
    orders: tuple[Order, ...]
    factors: tuple[Factor, ...]
    same: tuple[str, ...]
    causes: tuple[Cause, ...]
    start: str | None
    evaluator_differs: bool
