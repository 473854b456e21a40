"""What each unit stands at in each test, and what its line cohort makes of it (rules 11, 14)."""

from __future__ import annotations

from datetime import datetime

from second_opinion.catalogue import may_have, plan_at
from second_opinion.records import Book, Row
from second_opinion.stamps import order, runs_by_unit
from second_opinion.times import shift_at, zone_of

FAILED = ("fail", "aborted")


def stamp_units(book: Book) -> None:
    """Stamp the status of every unit and test, then the line state of every unit."""
    grouped = runs_by_unit(book)
    for vin in book.units:
        for test in book.settings["test"]:
            runs = sorted(grouped.get((vin, test), []), key=order)
            status = status_row(book, vin, test, runs)
            if runs or status["required"]:
                book.status[vin, test] = status
    for unit in book.units.values():
        stamp_line(book, unit)


def events_of(book: Book, vin: str) -> list[Row]:
    """The events of a unit in order."""
    return sorted((e for e in book.events if e["vin"] == vin), key=lambda e: e["at"])


def status_row(book: Book, vin: str, test: str, runs: list[Row]) -> Row:
    """One row of unit_status."""
    counted = [run for run in runs if run["counts"]]
    voids = [run for run in runs if not run["counts"]]
    anchor = counted[0] if counted else voids[-1] if voids else None
    row: Row = {
        "vin": vin,
        "test": test,
        "required": required(book, vin, test, anchor),
        "attempts": len(counted),
        "first_run_id": counted[0]["run_id"] if counted else None,
        "first_result": counted[0]["result"] if counted else None,
        "last_run_id": counted[-1]["run_id"] if counted else None,
        "last_result": counted[-1]["result"] if counted else None,
        "clear_at": clear_at(book, vin, test, counted),
        "production_date": anchor["production_date"] if anchor else None,
        "shift": anchor["shift"] if anchor else None,
    }
    row["release"] = release(book, vin, test, counted)
    row["status"] = status(book, row, voids)
    return row


def required(book: Book, vin: str, test: str, anchor: Row | None) -> bool:
    """True where the plan asks this test of this unit; without a run the plan at its line-off."""
    at = anchor["at"] if anchor else book.units[vin]["line_off_at"] or book.as_of
    plan = plan_at(book, test, at) if at else None
    if plan is None or (plan.get("required") == "when_run" and anchor is None):
        return False
    return may_have(book, vin, plan.get("applies_when"))


def disturbing(book: Book, vin: str, test: str) -> list[Row]:
    """The repairs of a unit after which a pass before them proves nothing."""
    rules = [rule for rule in book.settings.get("disturbs", []) if test in rule["tests"]]
    return [
        repair
        for repair in book.repairs
        if repair["vin"] == vin
        and any(
            rule[field] == repair.get(field)
            for rule in rules
            for field in ("action", "code", "owner_area")
            if field in rule
        )
    ]


def clear_at(book: Book, vin: str, test: str, counted: list[Row]) -> datetime | None:
    """When a unit became clear, None where it is not."""
    repairs = disturbing(book, vin, test)
    if any(repair.get("ended_at") is None for repair in repairs):
        return None
    since: datetime | None = None
    for run in reversed(counted):
        after = any(repair["ended_at"] > run["at"] for repair in repairs)
        if run["result"] != "pass" or after:
            break
        since = run["at"]
    return since


def returned_after(book: Book, vin: str, at: datetime) -> bool:
    """True where a unit came back after a time."""
    return any(e["kind"] == "return" and e["at"] > at for e in events_of(book, vin))


def is_given(event: Row) -> bool:
    """True for a release by name and on a paper; no other covers anything (rule 14)."""
    named = event.get("entered_by") and event.get("reference")
    return event["kind"] == "release" and bool(named)


def release(book: Book, vin: str, test: str, counted: list[Row]) -> Row | None:
    """The release that covers what a unit lacks in a test, None where none does (rule 14)."""
    for event in reversed(events_of(book, vin)):
        if not is_given(event):
            continue
        later_fail = any(r["at"] > event["at"] and r["result"] in FAILED for r in counted)
        if later_fail or returned_after(book, vin, event["at"]):
            continue
        if not clear_then(book, vin, test, counted, event["at"]):
            return event
    return None


def clear_then(book: Book, vin: str, test: str, counted: list[Row], at: datetime) -> bool:
    """True where a unit was clear in a test at a time, by what had happened until then."""
    done = [run for run in counted if run["at"] <= at]
    if not done or done[-1]["result"] != "pass":
        return False
    for repair in disturbing(book, vin, test):
        begun = repair.get("started_at") or repair.get("ended_at") or repair.get("entered_at")
        if begun is not None and begun > at:
            continue
        if repair.get("ended_at") is None or repair["ended_at"] > done[-1]["at"]:
            return False
    return True


def stands(book: Book, vin: str, kind: str) -> bool:
    """True where a unit was scrapped or diverted and has not come back."""
    return any(
        event["kind"] == kind and not returned_after(book, vin, event["at"])
        for event in events_of(book, vin)
    )


def held(book: Book, vin: str) -> bool:
    """True where the latest of hold and unhold is a hold."""
    holds = [e["kind"] for e in events_of(book, vin) if e["kind"] in ("hold", "unhold")]
    return bool(holds) and holds[-1] == "hold"


def status(book: Book, row: Row, voids: list[Row]) -> str:
    """The status of a unit in a test, the first that applies."""
    vin = row["vin"]
    tried = [
        ("scrapped", stands(book, vin, "scrap")),
        ("diverted", stands(book, vin, "divert")),
        ("passed", row["clear_at"] is not None),
        ("released", row["release"] is not None),
        ("held", held(book, vin)),
        ("failed", row["last_result"] in FAILED),
        ("disturbed", row["last_result"] == "pass"),
    ]
    for name, applies in tried:
        if applies:
            return name
    if not voids:
        return "untested"
    named = {"bypass": "bypassed", "missing": "pending"}
    return named.get(voids[-1]["void_reason"], "void")


def repair_time(repair: Row) -> datetime | None:
    """The time that a repair goes by (rule 15)."""
    at: datetime | None = (
        repair.get("ended_at") or repair.get("started_at") or repair.get("entered_at")
    )
    return at


def repairs_between(book: Book, vin: str, start: datetime, stop: datetime | None) -> list[Row]:
    """The repairs of a unit from one time to another, both included, in order."""
    found = []
    for repair in book.repairs:
        at = repair_time(repair)
        if repair["vin"] == vin and at is not None and start <= at and (stop is None or at <= stop):
            found.append(repair)
    return sorted(found, key=lambda repair: repair_time(repair) or start)


def stamp_line(book: Book, unit: Row) -> None:
    """Date, shift and state of a unit on the line (rule 11)."""
    zone = zone_of(book.settings["plant"]["timezone"])
    unit["line_date"] = unit["line_shift"] = None
    if unit["line_off_at"] is not None:
        unit["line_date"], unit["line_shift"] = shift_at(book.windows, unit["line_off_at"], zone)
    mine = [row for row in book.status.values() if row["vin"] == unit["vin"]]
    needed = [row for row in mine if row["required"]]
    unit["line_state"] = line_state(book, unit["vin"], needed)


def line_state(book: Book, vin: str, needed: list[Row]) -> str:
    """Went through, failed one, or undecided."""
    tests = {row["test"] for row in needed}
    runs = [run for run in book.runs if run["vin"] == vin]
    repaired = repaired_before_clear(book, vin, needed)
    passed = all(row["first_result"] == "pass" for row in needed)
    if needed and passed and not repaired:
        return "went_through"
    bypassed = any(run["result"] == "bypass" and run["test"] in tests for run in runs)
    scrapped = any(event["kind"] == "scrap" for event in events_of(book, vin))
    failed = any(row["first_result"] in FAILED for row in needed)
    return "failed_one" if failed or repaired or bypassed or scrapped else "undecided"


def repaired_before_clear(book: Book, vin: str, needed: list[Row]) -> bool:
    """True where something was mended between the first run and the last test's clear."""
    ran = [run["started_at"] for run in book.runs if run["vin"] == vin]
    if not ran:
        return False
    clear = [row["clear_at"] for row in needed]
    stop = None if None in clear else max(clear)
    between = repairs_between(book, vin, min(ran), stop)
    return any(repair.get("class") != "none" for repair in between)
