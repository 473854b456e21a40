"""Units that wait, units that left without proof, checks of the bench, loops (rules 13 to 15)."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from second_opinion.base_views import crew_of, is_production
from second_opinion.catalogue import can_hurt
from second_opinion.records import Book, Row
from second_opinion.rows import second_of
from second_opinion.stamps import COUNTING, order, runs_by_unit
from second_opinion.status import FAILED, disturbing, events_of, repair_time, repairs_between

OPEN = ("failed", "disturbed", "held", "void", "pending", "bypassed")
DAY = timedelta(hours=24)
Loop = tuple[str, str, list[Row], Row]
OF_CHECK = ("run_id", "vin", "test", "station", "bay", "at", "production_date", "shift", "result")


def views(book: Book) -> dict[str, list[Row]]:
    """Every view whose key is a unit."""
    made = {
        "open_unit": open_units(book),
        "unchecked": unchecked(book),
        "lacking_proof": lacking_proof(book),
        "reference_check": reference_checks(book),
        "fail_to_clear": fail_to_clear(book),
        "fail_loop": fail_loop(book),
    }
    return made | escapes(book)


def production_status(book: Book) -> list[Row]:
    """The status rows of production units."""
    return [row for (vin, _), row in book.status.items() if is_production(book, vin)]


def runs_of(book: Book, vin: str, test: str, *, counts: bool) -> list[Row]:
    """The counted, or the uncounted, runs of a unit in a test, in order."""
    runs = runs_by_unit(book).get((vin, test), [])
    return sorted((run for run in runs if run["counts"] == counts), key=order)


def open_units(book: Book) -> list[Row]:
    """One row a unit and test that still waits for something."""
    rows = [row for row in production_status(book) if row["required"] or row["attempts"]]
    return [open_unit(book, row) for row in rows if row["status"] in OPEN]


def open_unit(book: Book, row: Row) -> Row:
    """What a unit waits for in a test."""
    counted = runs_of(book, row["vin"], row["test"], counts=True)
    fails = [run for run in counted if run["result"] in FAILED]
    last = fails[-1] if fails else None
    places = [e["place"] for e in events_of(book, row["vin"]) if e.get("place")]
    found = last["findings"].values() if last else []
    codes = {f["code"] for f in found if f["counts_as"] in COUNTING}
    return {
        "vin": row["vin"],
        "test": row["test"],
        "status": row["status"],
        "waiting_for": waiting_for(book, row, last),
        "loops": len(fails),
        "place": places[-1] if places else None,
        "codes": ", ".join(sorted(codes)) or None,
    }


def waiting_for(book: Book, row: Row, last: Row | None) -> str:
    """Repair, retest, reading or decision; a unit in an open repair waits for that first."""
    if row["status"] in ("held", "bypassed"):
        return "decision"
    if row["status"] == "pending":
        return "reading"
    since = last["at"] if last is not None else waits_since(book, row)
    met = [
        repair
        for repair in book.repairs
        if repair["vin"] == row["vin"]
        and repair.get("class") != "none"
        and (row["status"] == "disturbed" or mends(repair, row["test"]))
        and (at := repair_time(repair)) is not None
        and since is not None
        and at >= since
    ]
    if any(repair.get("ended_at") is None for repair in met):
        return "repair"
    return "repair" if row["status"] == "failed" and not met else "retest"


def waits_since(book: Book, row: Row) -> datetime | None:
    """Since when a unit that never failed waits: its disturbing repair, else its last run, which is void."""
    if row["status"] == "disturbed":
        repairs = disturbing(book, row["vin"], row["test"])
        begun = [repair_time(repair) for repair in repairs if repair.get("ended_at") is None]
        known = [at for at in begun if at is not None]
        return min(known) if known else max(repair["ended_at"] for repair in repairs)
    voids = runs_of(book, row["vin"], row["test"], counts=False)
    return voids[-1]["at"] if voids else None


def escapes(book: Book) -> dict[str, list[Row]]:
    """Units past an event of proof without proof: escapes, and those not yet provable (rule 14)."""
    made: dict[str, list[Row]] = {"escape": [], "unproven": []}
    for row in lacking_proof(book):
        found = {name: row[name] for name in ("vin", "test", "reason", "event", "event_at")}
        if row["silent_station"] is None:
            made["escape"].append(found)
        else:
            since = {"station": row["silent_station"], "silent_since": row["silent_since"]}
            made["unproven"].append(found | since)
    return made


def lacking_proof(book: Book) -> list[Row]:
    """Units past an event of proof, in each required test neither clear nor released (rule 14)."""
    rows = []
    for row in production_status(book):
        event = proof_event(book, row["vin"])
        gone = row["status"] in ("scrapped", "diverted", "passed", "released")
        if event is None or gone or not row["required"]:
            continue
        unit = book.units[row["vin"]]
        station, since = silent(book, row["test"], event["at"]) or (None, None)
        rows.append(
            {
                "vin": row["vin"],
                "test": row["test"],
                "reason": reason(book, row),
                "event": event["kind"],
                "event_at": event["at"],
                "silent_station": station,
                "silent_since": since,
                "line_date": unit["line_date"],
                "line_shift": unit["line_shift"],
            }
        )
    return rows


def proof_event(book: Book, vin: str) -> Row | None:
    """The first event of a unit that asks for proof."""
    kinds = book.settings["plant"].get("proof_at", ["signed_off", "ship"])
    passed = [event for event in events_of(book, vin) if event["kind"] in kinds]
    return passed[0] if passed else None


def reason(book: Book, row: Row) -> str:
    """Why a unit is an escape, the first that applies."""
    if row["last_result"] is not None:
        return "failed" if row["last_result"] in FAILED else "disturbed"
    voids = runs_of(book, row["vin"], row["test"], counts=False)
    if not voids:
        return "no_record"
    return "bypassed" if voids[-1]["void_reason"] == "bypass" else "void"


def silent(book: Book, test: str, event_at: datetime) -> tuple[str, datetime] | None:
    """The station of a test that has sent nothing newer than an event, the longest silent first."""
    limit = timedelta(seconds=book.settings["plant"].get("silence_limit", 86400))
    if book.as_of is None or book.as_of - event_at > limit:
        return None
    newest: dict[str, datetime] = {}
    for run in book.runs:
        if run["test"] == test:
            newest[run["station"]] = max(run["at"], newest.get(run["station"], run["at"]))
    quiet = [
        (at, station) for station, at in newest.items() if at <= event_at and at > book.as_of - DAY
    ]
    if not quiet:
        return None
    since, station = min(quiet)
    return station, since


def reference_checks(book: Book) -> list[Row]:
    """The bench checks: counted runs of reference units in their declared test (rule 13)."""
    rows = []
    for run in book.runs:
        wanted = {
            (reference["code"], reference.get("zone"))
            for reference in book.settings.get("reference", [])
            if (reference["vin"], reference["test"]) == (run["vin"], run["test"])
        }
        if not wanted or not run["counts"] or book.units[run["vin"]]["kind"] != "reference":
            continue
        shown = sum(shows(run, code, zone) for code, zone in wanted)
        row = {name: run[name] for name in OF_CHECK}
        row["crew"] = crew_of(book, run["production_date"], run["shift"])
        told = {"declared": len(wanted), "shown": shown, "good": shown == len(wanted)}
        rows.append(row | told)
    return rows


def shows(run: Row, code: str, zone: str | None) -> bool:
    """True where a run has a declared code, in the declared zone where there is one."""
    return any(
        found == code and (zone is None or where == zone) for found, where, _ in run["findings"]
    )


def unchecked(book: Book) -> list[Row]:
    """Passes of a station and bay between the good checks around a failed one."""
    made = reference_checks(book)
    rows = []
    for run in book.runs:
        if run["result"] != "pass" or not run["counts"] or not is_production(book, run["vin"]):
            continue
        place = (run["test"], run["station"], run["bay"])
        mine = [c for c in made if (c["test"], c["station"], c["bay"]) == place]
        good = [c["at"] for c in mine if c["good"]]
        last = max((at for at in good if at <= run["at"]), default=None)
        following = min((at for at in good if at > run["at"]), default=None)
        bad = [c["at"] for c in mine if not c["good"] and within(c["at"], last, following)]
        if bad:
            names = ("vin", "test", "station", "bay", "run_id", "at", "production_date", "shift")
            gap = {"last_good_at": last, "failed_at": min(bad), "next_good_at": following}
            rows.append({name: run[name] for name in names} | gap)
    return rows


def within(at: datetime, start: datetime | None, stop: datetime | None) -> bool:
    """True for a time between two that may be open."""
    return (start is None or start < at) and (stop is None or at < stop)


def loops(book: Book) -> list[Loop]:
    """Unit and test, the counted fails since the last counted pass, and the pass that ended them."""
    found: list[Loop] = []
    for (vin, test), runs in runs_by_unit(book).items():
        fails: list[Row] = []
        for run in sorted((run for run in runs if run["counts"]), key=order):
            if run["result"] in FAILED:
                fails.append(run)
            elif fails:
                found.append((vin, test, fails, run))
                fails = []
    return [one for one in found if is_production(book, one[0])]


def fail_to_clear(book: Book) -> list[Row]:
    """One row a loop from a unit's first fail to its next pass in a test (rule 15)."""
    rows = [loop(book, *one) for one in loops(book)]
    guard(rows)
    return rows


def fail_loop(book: Book) -> list[Row]:
    """One row a loop, named by the run that passed, in the shift of that pass (rules 7 and 15)."""
    return [
        {
            "production_date": passed["production_date"],
            "shift": passed["shift"],
            "crew": crew_of(book, passed["production_date"], passed["shift"]),
            "vin": vin,
            "test": test,
            "run_id": passed["run_id"],
            "failed_at": fails[0]["at"],
            "passed_at": passed["at"],
            "fails": len(fails),
        }
        for vin, test, fails, passed in loops(book)
    ]


def loop(book: Book, vin: str, test: str, fails: list[Row], passed: Row) -> Row:
    """One loop: when it failed, was repaired and passed."""
    between = mended(book, vin, test, fails[0]["at"], passed["at"])
    real = [repair for repair in between if repair.get("class") != "none"]
    ends = [r["ended_at"] or r["started_at"] or r["entered_at"] for r in real]
    safety = any(safety_fail(book, run) for run in fails)
    return {
        "vin": vin,
        "test": test,
        "production_date": passed["production_date"],
        "shift": passed["shift"],
        "crew": crew_of(book, passed["production_date"], passed["shift"]),
        "failed_at": fails[0]["at"],
        "repaired_at": max(ends, default=None),
        "passed_at": passed["at"],
        "minutes": seconds_between(fails[0]["at"], passed["at"]) / 60,
        "repaired": bool(real),
        "fixed_without_repair": None if safety else not real,
        "any_row": bool(between),
    }


def mended(book: Book, vin: str, test: str, start: datetime, stop: datetime | None) -> list[Row]:
    """The repairs of a unit between two times that name the test, or none."""
    return [repair for repair in repairs_between(book, vin, start, stop) if mends(repair, test)]


def mends(repair: Row, test: str) -> bool:
    """True where a repair names a test, or none."""
    return repair.get("test") in (None, test)


def seconds_between(start: datetime, stop: datetime) -> float:
    """Whole seconds between two times, each cut to its second."""
    return (second_of(stop) - second_of(start)).total_seconds()


def safety_fail(book: Book, run: Row) -> bool:
    """True where a fail has a finding of the unit that can hurt."""
    counting = {key for key, f in run["findings"].items() if f["counts_as"] in COUNTING}
    return any(can_hurt(book, run, code, zone) for code, zone, _ in counting)


def guard(rows: list[Row]) -> None:
    """Say nothing of a shift where under 80 % of its loops have any repair row."""
    by_shift: dict[Any, list[Row]] = {}
    for row in rows:
        by_shift.setdefault((row["production_date"], row["shift"]), []).append(row)
    for mine in by_shift.values():
        if 5 * sum(row["any_row"] for row in mine) < 4 * len(mine):
            for row in mine:
                row["fixed_without_repair"] = None
