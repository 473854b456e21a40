"""Made-up actions, looks at what the tests see, and a repair queue."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

from eol.facts.action_sides import Baseline, ShiftSide, Side
from eol.facts.action_watch import Recurrence
from eol.facts.actions import Action
from eol.facts.drift import Drift
from eol.facts.false_fails import FalseFails
from eol.facts.queue import RepairQueue, repair_queue
from eol.facts.seeing import CheckedBay, Seeing, double_looks
from eol.facts.span import CalendarShift, Span
from eol.statistics.effect import judge_action

START = datetime(2026, 9, 8, 4, 0, tzinfo=UTC)


def action(
    name: str = "CM-1",
    *,
    before: tuple[int, int] = (104, 5600),
    after: tuple[int, int] = (29, 9585),
    **more: object,
) -> Action:
    """Return an action of the code EL-MIRROR by its units with the code and units on both sides."""
    told: dict[str, object] = {
        "action_id": name,
        "test": "electrical",
        "code": "EL-MIRROR",
        "zone": None,
        "title": "Mirror does not answer",
        "test_title": "Electrical test",
        "safety_related": False,
        "handling": None,
        "what": "Connector with a latch",
        "owner": "Door line lead",
        "opened_on": date(2026, 9, 1),
        "due_on": None,
        "closed_on": None,
        "from_build_seq": 106_401,
        "cut_in_at": None,
        "expected_ratio": 0.5,
        "baseline": Baseline(Side(before[1], before[0]), frozenset()),
        "transition": Side(),
        "after": Side(after[1], after[0]),
        "effect": judge_action(after, before),
        "shrunk": None,
        "at_most": None,
        "together": None,
        "came_back": None,
        "alone": None,
        "on_declared": None,
    }
    return Action(**(told | more))  # type: ignore[arg-type]


def back(last: int = 0) -> Recurrence:
    """Return a code that came back, the signal so many shifts ago."""
    since = ShiftSide((date(2026, 9, 17), "night"), Side(400, 5))
    return Recurrence(since, Side(1199, 24), last)


def seeing() -> Seeing:
    """Return a bay that missed its reference unit, a clogging filter, a false bench and bad audits."""
    return Seeing(
        checks=(
            CheckedBay("water", "W1", "B", 10, 14, 0.46, 1, 4),
            CheckedBay("water", "W1", "A", 20, 20, 0.86, 0, 0),
        ),
        drifts=(drift(),),
        false_fails=(
            FalseFails("electrical", "E2", None, "EL-CHARGE", 51, 51, 39, 0.63, 0.86, 46, 1, 1e-9),
        ),
        double_looks=double_looks([looks(5, 9, 8, 10)]),
    )


def drift(level: float = 227.0, runs_left: int | None = None) -> Drift:
    """Return a water pressure on its way to its lower limit."""
    since = (date(2026, 9, 17), "day")
    return Drift(
        "water",
        "W1",
        "B",
        "pressure_kpa",
        "kPa",
        level,
        250.0,
        "lower",
        220.0,
        since,
        134,
        runs_left,
    )


def looks(both: int, first: int, audit: int, neither: int) -> dict[str, object]:
    """Return a row of `seeing/double_look`."""
    return {
        "test": "squeak_rattle",
        "both_failed": both,
        "only_first": first,
        "only_audit": audit,
        "neither": neither,
    }


def span(shifts: int = 4) -> Span:
    """Return shifts of eight hours, one after the other."""
    return Span(
        tuple(
            CalendarShift(
                (date(2026, 9, 8), str(at)),
                START + timedelta(hours=8 * at),
                START + timedelta(hours=8 * at + 8),
            )
            for at in range(shifts)
        )
    )


def wait(began: float, hours: float | None, fails: int = 1) -> dict[str, object]:
    """Return a row of `queue/wait`: hours after the first shift's start, and how long; None waits still."""
    start = START + timedelta(hours=began)
    ended = None if hours is None else start + timedelta(hours=hours)
    return {"began_at": start, "ended_at": ended, "fails": fails}


def queue(*waits: dict[str, object]) -> RepairQueue:
    """Return the queue of some waits over four shifts."""
    return repair_queue(waits or (wait(1, 2), wait(2, None)), span(), (), repairs=1)
