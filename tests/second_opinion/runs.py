"""Runs: versions of one run, the one that wins, and runs sent again an hour off (rules 1, 2, 5)."""

from __future__ import annotations

import hashlib
from datetime import datetime, timedelta
from typing import Any

from second_opinion.records import Row
from second_opinion.rows import Ranked, number, second_of, whole
from second_opinion.times import midnight, sent_time, to_utc, zone_of

WORST = ["fail", "aborted", "bypass", "pass"]
HOUR = timedelta(hours=1)
FINDING = ["code", "zone", "step", "severity", "note"]
SENT = [
    "vin",
    "test",
    "station",
    "bay",
    "run_ref",
    "started_at",
    "ended_at",
    "purpose",
    "program",
    "operator",
    "last_step",
]


def winning_runs(
    files: list[Ranked], settings: dict[str, Any], corrections: list[Row]
) -> list[Row]:
    """Every run once, as its winning version has it, clocks and corrections applied."""
    tests = [file for file in files if file.feed in settings["test"]]
    versions = [version for file in tests for version in versions_of(file, settings)]
    mark_suspects(versions)
    runs: dict[Any, Row] = {}
    for version in versions:
        if version["key"] not in runs or strength(version) > strength(runs[version["key"]]):
            runs[version["key"]] = version
    add_parts(files, settings, runs)
    for run in runs.values():
        run["run_id"] = run_id(run)
        set_clock(run, settings)
        correct(run, corrections, settings)
    return list(runs.values())


def strength(version: Row) -> tuple[Any, ...]:
    """What decides between two versions: not moved by an hour, revision, file."""
    return (not version["moved"], version["revision"], version["rank"])


def place(row: Row, settings: dict[str, Any]) -> str | None:
    """The bay of a row under its own name."""
    bay = None if row.get("bay") is None else str(row["bay"])
    for station in settings.get("station", []):
        if station["name"] == row["station"]:
            return str(station.get("bay_alias", {}).get(bay, bay)) if bay else None
    return bay


def natural_key(row: Row, test: str) -> tuple[Any, ...]:
    """What names a run that has no run_ref."""
    return (row["vin"], test, row["station"], second_of(row["started_at"]))


def run_key(row: Row, test: str) -> tuple[Any, ...]:
    """What names a run (rule 1)."""
    if row.get("run_ref") is not None:
        return (row["station"], str(row["run_ref"]))
    return natural_key(row, test)


def versions_of(file: Ranked, settings: dict[str, Any]) -> list[Row]:
    """The runs of one file: its rows by key and revision."""
    grouped: dict[Any, list[Row]] = {}
    for row in file.rows:
        key = (run_key(row, file.feed), whole(row.get("revision")) or 0)
        grouped.setdefault(key, []).append(row)
    return [version(file, key, rows, settings) for key, rows in grouped.items()]


def version(file: Ranked, key: Any, rows: list[Row], settings: dict[str, Any]) -> Row:
    """One version of one run, its worst result (rule 5), its findings and conditions."""
    test, head = file.feed, rows[0]
    results = [row["result"] for row in rows]
    made: Row = {name: first_sent(rows, name) for name in SENT}
    made |= {
        "key": key[0],
        "natural_key": natural_key(head, test),
        "revision": key[1],
        "rank": file.rank,
        "test": test,
        "bay": place(head, settings),
        "result": next(result for result in WORST if result in results),
        "findings": {},
        "readings": {},
        "suspect": False,
        "moved": False,
    }
    for name in ("vin", "started_at", "ended_at", "result"):
        made[f"{name}_sent"] = made[name]
    for row in rows:
        if row.get("code") is not None:
            add_finding(made, row, file.rank, settings)
        for condition in {c["name"] for c in settings["test"][test].get("condition", [])}:
            if row.get(condition) is not None:
                made["readings"][condition, 1] = (file.rank, number(row[condition]))
    return made


def first_sent(rows: list[Row], name: str) -> Any:
    """The first value that the rows of a run have."""
    return next((row[name] for row in rows if row.get(name) is not None), None)


def add_finding(run: Row, row: Row, rank: Any, settings: dict[str, Any]) -> None:
    """Put a finding to its run; of one key the file ranked higher wins."""
    key = (row["code"], row.get("zone"), row.get("step"))
    if key in run["findings"] and run["findings"][key]["rank"] > rank:
        return
    most = settings["test"][run["test"]].get("max_quantity")
    quantity = whole(row.get("quantity"))
    if quantity is not None and (quantity < 1 or (most is not None and quantity > most)):
        quantity = None
    finding = {name: row.get(name) for name in FINDING}
    run["findings"][key] = finding | {
        "quantity": quantity,
        "rating": number(row.get("rating")),
        "rank": rank,
    }


def add_parts(files: list[Ranked], settings: dict[str, Any], runs: dict[Any, Row]) -> None:
    """Join the findings and readings that came by their own feeds; those without a run wait."""
    natural = {run["natural_key"]: run for run in runs.values()}
    for file in files:
        test, _, part = file.feed.rpartition("_")
        if test not in settings["test"] or part not in ("findings", "readings"):
            continue
        for row in file.rows:
            run = runs.get(run_key(row, test))
            if row.get("run_ref") is None:
                run = run or natural.get(natural_key(row, test))
            if run is not None and part == "findings":
                add_finding(run, row, file.rank, settings)
            elif run is not None:
                add_reading(run, row, file.rank)


def add_reading(run: Row, row: Row, rank: Any) -> None:
    """Put a reading to its run; of one name and sample the file ranked higher wins."""
    key = (row["name"], whole(row.get("sample")) or 1)
    known = run["readings"].get(key)
    if known is None or known[0] <= rank:
        run["readings"][key] = (rank, number(row["value"]))


def mark_suspects(versions: list[Row]) -> None:
    """Mark the runs of a later file that repeat three or more of an earlier one an hour off."""
    told: dict[Any, Any] = {}
    by_file: dict[Any, list[Row]] = {}
    for one in versions:
        told[content(one)] = min(one["rank"], told.get(content(one), one["rank"]))
        by_file.setdefault((one["rank"], one["test"]), []).append(one)
    for early, early_runs in by_file.items():
        for late, late_runs in by_file.items():
            if early[0] < late[0] and early[1] == late[1]:
                fresh = [run for run in late_runs if told[content(run)] > early[0]]
                mark_pair(early_runs, fresh, late_runs)


def content(run: Row) -> Any:
    """A run as one file tells it: what an even earlier file told the same is no re-export."""
    return (run["key"], begun(run), likeness(run))


def mark_pair(early: list[Row], fresh: list[Row], late: list[Row]) -> None:
    """Compare two files, each way an hour can go; of the later one only what it told first can be a twin."""
    known: dict[Any, set[datetime]] = {}
    for run in early:
        known.setdefault(likeness(run), set()).add(begun(run))
    references = {run["key"]: begun(run) for run in early if run["run_ref"] is not None}
    for step in (HOUR, -HOUR):
        equal = [r for r in fresh if begun(r) - step in known.get(likeness(r), set())]
        moved = [r for r in late if references.get(r["key"]) == begun(r) - step]
        if len(equal) >= 3:
            for run in equal:
                run["suspect"] = True
        if len(moved) >= 3:
            for run in moved:
                run["suspect"] = run["moved"] = True


def begun(run: Row) -> datetime:
    """The second in which a run began: rule 1 names runs by it, and a re-export may leave fractions out."""
    return second_of(run["started_at_sent"])


def likeness(run: Row) -> Any:
    """What two runs must share to be one run sent twice (rule 2)."""
    return (run["vin"], run["test"], run["station"], run["result"], frozenset(run["findings"]))


def run_id(run: Row) -> int:
    """A time-ordered number from what names the run."""
    second = int(run["started_at_sent"].timestamp() // 1)
    named = run["key"] if len(run["key"]) == 2 else (*run["key"][:3], second)
    digest = hashlib.md5("|".join(str(part) for part in named).encode()).digest()
    return (second << 30) + (int.from_bytes(digest[:4], "big") & (1 << 30) - 1)


def set_clock(run: Row, settings: dict[str, Any]) -> None:
    """Add what the bench's clock was wrong by."""
    zone = zone_of(settings["plant"]["timezone"])
    for offset in settings.get("clock_offset", []):
        if offset["station"] != run["station"]:
            continue
        start = midnight(offset["valid_from"], zone)
        stop = midnight(offset["valid_to"], zone) if "valid_to" in offset else None
        begun = run["started_at_sent"]
        if begun < start or (stop is not None and begun >= stop):
            continue
        for name in ("started_at", "ended_at"):
            sent = run[f"{name}_sent"]
            run[name] = sent and sent + timedelta(seconds=offset["seconds"])


def correct(run: Row, corrections: list[Row], settings: dict[str, Any]) -> None:
    """Mend the fields that a correction names, the latest last (rule 1)."""
    zone = zone_of(settings["plant"]["timezone"])
    mine = [c for c in corrections if whole(c.get("run_id")) == run["run_id"]]
    for correction in sorted(mine, key=lambda c: (c["made_at"], c["rank"])):
        value = correction["value"]
        if correction["field"] in ("started_at", "ended_at"):
            value = to_utc([sent_time(value)], zone, ordered=False)[0]
        run[correction["field"]] = value
