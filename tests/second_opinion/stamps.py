"""Stamps of runs and findings: shift, void_reason, attempt, counts_as (rules 3 to 8)."""

from __future__ import annotations

import operator
from collections.abc import Callable
from datetime import timedelta
from typing import Any

from second_opinion.catalogue import is_equipment, limits_at
from second_opinion.records import Book, Row
from second_opinion.times import shift_at, zone_of

COMPARE: dict[str, Callable[[Any, Any], bool]] = {
    "<=": operator.le,
    ">=": operator.ge,
    "!=": operator.ne,
    "<": operator.lt,
    ">": operator.gt,
    "=": operator.eq,
}
COUNTING = ("defect", "retest", "masked", "repeat")


def order(run: Row) -> tuple[Any, ...]:
    """The order of runs (rule 7)."""
    return (run["at"], run["started_at"], run["run_id"])


def stamp(book: Book) -> None:
    """Stamp every run and finding of the book."""
    for run in book.runs:
        stamp_time(book, run)
        run["void_reason"] = void_reason(book, run)
        run["counts"] = run["void_reason"] is None
        run["attempt"] = None
    for runs in runs_by_unit(book).values():
        counted = sorted((run for run in runs if run["counts"]), key=order)
        for attempt, run in enumerate(counted, start=1):
            run["attempt"] = attempt
            stamp_findings(book, run, counted[: attempt - 1])
        for run in runs:
            if not run["counts"]:
                stamp_findings(book, run, [])


def runs_by_unit(book: Book) -> dict[tuple[str, str], list[Row]]:
    """The runs of each unit in each test."""
    found: dict[tuple[str, str], list[Row]] = {}
    for run in book.runs:
        found.setdefault((run["vin"], run["test"]), []).append(run)
    return found


def stamp_time(book: Book, run: Row) -> None:
    """When a run counts, and in which shift (rule 3)."""
    length = timedelta(seconds=book.test(run["test"])["length"])
    run["at"] = run["ended_at"] or run["started_at"] + length
    zone = zone_of(book.settings["plant"]["timezone"])
    run["production_date"], run["shift"] = shift_at(book.windows, run["at"], zone)


def void_reason(book: Book, run: Row) -> str | None:
    """Why a run does not count, None where it does; the first reason that applies."""
    codes = [code for code, _, _ in run["findings"]]
    product = [code for code in codes if not is_equipment(book, code, run)]
    if run["suspect"]:
        return "suspect_double"
    if run["result"] == "bypass":
        return "bypass"
    if run["result"] == "aborted" and not product:
        return "aborted"
    if run["result"] == "fail" and codes and not product:
        return "equipment"
    return condition_reason(book, run)


def condition_reason(book: Book, run: Row) -> str | None:
    """Too weak a test clears no unit, too harsh a test condemns none (rule 4)."""
    reasons = set()
    for limit in limits_at(book, run["test"], run["at"]):
        sent = [v for (name, _), (_, v) in run["readings"].items() if name == limit["name"]]
        values = [value for value in sent if value is not None]
        lower, upper = limit.get("lower"), limit.get("upper")
        if run["result"] == "pass" and not values:
            reasons.add("missing")
        elif run["result"] == "pass" and lower is not None and min(values) < lower:
            reasons.add("weak")
        elif run["result"] != "pass" and values and upper is not None and max(values) > upper:
            reasons.add("harsh")
    return next((r for r in ("missing", "weak", "harsh") if r in reasons), None)


def stamp_findings(book: Book, run: Row, earlier: list[Row]) -> None:
    """Give every finding its role, and a bare fail its UNSPECIFIED (rule 8)."""
    seen = {
        (code, zone)
        for before in earlier
        for (code, zone, _), finding in before["findings"].items()
        if finding["counts_as"] in COUNTING
    }
    for (code, zone, step), finding in run["findings"].items():
        if is_equipment(book, code, run):
            finding["counts_as"] = "equipment"
        elif not run["counts"]:
            finding["counts_as"] = "void"
        elif outside(book.test(run["test"]).get("defect_when"), finding):
            finding["counts_as"] = "observation"
        else:
            finding["counts_as"] = role(book, run, (code, zone) in seen, step, earlier)
    counting = [f for f in run["findings"].values() if f["counts_as"] in COUNTING]
    if run["counts"] and run["result"] != "pass" and not counting:
        add_unspecified(run, earlier, seen)


def role(book: Book, run: Row, seen: bool, step: str | None, earlier: list[Row]) -> str:
    """Defect on attempt 1; later repeat, masked or retest."""
    if run["attempt"] == 1:
        return "defect"
    if seen:
        return "repeat"
    steps = book.test(run["test"]).get("steps", [])
    return "masked" if all(ended_before(r["last_step"], step, steps) for r in earlier) else "retest"


def ended_before(last_step: str | None, step: str | None, steps: list[str]) -> bool:
    """True where a run is known to have ended before a step."""
    if last_step not in steps or step not in steps:
        return False
    return steps.index(last_step) < steps.index(step)


def add_unspecified(run: Row, earlier: list[Row], seen: set[Any]) -> None:
    """A counted fail without a counting finding gets one UNSPECIFIED."""
    again = ("UNSPECIFIED", None) in seen
    run["findings"]["UNSPECIFIED", None, None] = {
        "code": "UNSPECIFIED",
        "zone": None,
        "step": None,
        "severity": None,
        "quantity": None,
        "rating": None,
        "counts_as": "defect" if not earlier else "repeat" if again else "retest",
    }


def outside(defect_when: str | None, finding: Row) -> bool:
    """True where a finding misses one of the comparisons of defect_when."""
    for clause in (defect_when or "").split("&"):
        sign = next((sign for sign in COMPARE if sign in clause), None)
        if sign is None:
            continue
        name, _, value = (part.strip() for part in clause.partition(sign))
        known = finding[name]
        if known is None:
            continue
        wanted: Any = float(value) if name in ("rating", "quantity") else value.strip("'\"")
        if not COMPARE[sign](known, wanted):
            return True
    return False
