"""Safety-related fails that no release covers (rules 4 and 15)."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from second_opinion.base_views import is_production
from second_opinion.catalogue import can_hurt, code_row
from second_opinion.records import Book, Row
from second_opinion.stamps import COUNTING
from second_opinion.status import FAILED, events_of, is_given

Found = tuple[str, str, str, str | None]


def views(book: Book) -> dict[str, list[Row]]:
    """The list of units that wait for a release, a row a unit, test, code and zone; and the releases."""
    rows = [listed(book, found, runs) for found, runs in sightings(book).items()]
    return {
        "safety_listed": [r for r in rows if not released(book, r["vin"], r["last_seen_at"])],
        "release_given": [
            {part: event.get(part) for part in ("vin", "at", "reference")}
            for event in book.events
            if is_given(event)
        ],
    }


def sightings(book: Book) -> dict[Found, list[Row]]:
    """The failed runs that showed something that can hurt, by unit, test, code and zone."""
    seen: dict[Found, dict[int, Row]] = {}
    for run in book.runs:
        if not is_production(book, run["vin"]) or not condemns(run):
            continue
        for (code, zone, _), finding in run["findings"].items():
            if finding["counts_as"] in (*COUNTING, "void") and can_hurt(book, run, code, zone):
                key = (run["vin"], run["test"], code, zone)
                seen.setdefault(key, {})[run["run_id"]] = run
    return {key: list(runs.values()) for key, runs in seen.items()}


def condemns(run: Row) -> bool:
    """True for a fail that counts, and for one that is void only because the test was harsh (rule 4)."""
    return run["result"] in FAILED and (run["counts"] or run["void_reason"] == "harsh")


def listed(book: Book, found: Found, runs: list[Row]) -> Row:
    """One thing found on a unit, once or again."""
    vin, test, code, zone = found
    last = max(run["at"] for run in runs)
    known: Any = code_row(book, code, test, last) or {}
    return {
        "vin": vin,
        "test": test,
        "code": code,
        "zone": zone,
        "title": known.get("title"),
        "handling": known.get("handling"),
        "first_seen_at": min(run["at"] for run in runs),
        "last_seen_at": last,
        "only_void": not any(run["counts"] for run in runs),
    }


def released(book: Book, vin: str, at: datetime) -> bool:
    """True where someone released a unit, by name and reference, after a time."""
    return any(is_given(event) for event in events_of(book, vin) if event["at"] >= at)
