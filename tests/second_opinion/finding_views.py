"""Runs with their unit, findings with what the catalogue says of them, the catalogue itself."""

from __future__ import annotations

from datetime import UTC, datetime
from itertools import pairwise
from typing import Any

from second_opinion.base_views import crew_of
from second_opinion.catalogue import EVER, can_hurt, cell_of, code_row, root_of
from second_opinion.records import Book, Row
from second_opinion.rows import truth

FOREVER = datetime(9999, 12, 31, tzinfo=UTC)
RUN = [
    "run_id",
    "vin",
    "test",
    "station",
    "bay",
    "program",
    "started_at",
    "at",
    "result",
    "counts",
    "void_reason",
    "attempt",
    "production_date",
    "shift",
]
UNIT = ["kind", "model", "line", "build_seq"]
NOT_OF_FINDING = ["program", "started_at", "shift_ends_at"]


def views(book: Book) -> dict[str, list[Row]]:
    """Runs, findings and spans of the catalogue, of units of any kind."""
    runs = [run_of_unit(book, run) for run in book.runs]
    found = [
        classed(book, row, finding)
        for row, run in zip(runs, book.runs, strict=True)
        for finding in run["findings"].values()
    ]
    return {"run_of_unit": runs, "classed_finding": found, "catalogue": catalogue(book)}


def run_of_unit(book: Book, run: Row) -> Row:
    """A run with its unit, and the crew and the end of its shift; none between shifts."""
    unit = book.units[run["vin"]]
    key = (run["production_date"], run["shift"])
    ends = [w["ends_at"] for w in book.windows if (w["production_date"], w["shift"]) == key]
    more = {"crew": crew_of(book, *key), "shift_ends_at": ends[0] if ends else None}
    return {name: run[name] for name in RUN} | {name: unit[name] for name in UNIT} | more


def classed(book: Book, run: Row, finding: Row) -> Row:
    """A finding with the catalogue row valid at the run's end (rules 4, 8, 12)."""
    code, zone, unit = finding["code"], finding["zone"], book.units[run["vin"]]
    known = code_row(book, code, run["test"], run["at"])
    row = {name: value for name, value in run.items() if name not in NOT_OF_FINDING}
    row |= {name: finding[name] for name in ("code", "zone", "step", "counts_as")}
    row |= {name: unit[name] for name in ("line_date", "line_shift")}
    said = known_words(known)
    return (
        row
        | {name: said[name] for name in ("owner_area", "title", "handling")}
        | {name: said[name] for name in ("applies_owner", "applies_from")}
        | {
            "sent_severity": finding["severity"],
            "catalogue_severity": said["severity"],
            "safety_related": can_hurt(book, run, code, zone),
            "root_code": root_of(book, code, run["test"], run["at"]),
            "cell": cell_of(book, zone, run["test"]),
            "quantity": finding["quantity"] or 1,
        }
    )


def known_words(row: Row | None) -> Row:
    """What a row of the catalogue says, nothing where there is none; its clauses go by its key."""
    names = ("title", "severity", "owner_area", "handling", "valid_from")
    said: dict[str, Any] = {name: row.get(name) if row else None for name in names}
    owner = f"code:{row['code']}:{row.get('test') or ''}" if row else None
    return said | {"applies_owner": owner, "applies_from": said.pop("valid_from")}


def catalogue(book: Book) -> list[Row]:
    """A row a code, test and span of time in which the catalogue says one thing of it.

    A code without a test stands in each test. A span ends where a row of the code begins or ends,
    and of a code that is joined to another where any row of the test does.
    """
    tests = set(book.settings["test"]) | {row["test"] for row in book.codes if row.get("test")}
    return [row for test in tests for row in catalogue_of(book, test)]


def catalogue_of(book: Book, test: str) -> list[Row]:
    """The spans of all codes that stand in a test."""
    rows = [row for row in book.codes if row.get("test") in (test, None)]
    made = []
    for code in {row["code"] for row in rows}:
        own = [row for row in rows if row["code"] == code]
        joined = any(row.get("same_as") for row in own)
        edges = edges_of(rows if joined else own)
        for start, stop in pairwise(edges):
            if code_row(book, code, test, start):
                made.append(span(book, code, test, start, stop))
    return made


def edges_of(rows: list[Row]) -> list[datetime]:
    """The times at which some rows begin or end, in order."""
    starts = {row.get("valid_from") or EVER for row in rows}
    return sorted(starts | {row.get("valid_to") or FOREVER for row in rows})


def span(book: Book, code: str, test: str, start: datetime, stop: datetime) -> Row:
    """What the catalogue says of a code in a test from one time to another."""
    known: Any = code_row(book, code, test, start)
    return known_words(known) | {
        "code": code,
        "test": test,
        "from_at": start,
        "to_at": stop,
        "safety_related": bool(truth(known.get("safety_related"))),
        "root_code": root_of(book, code, test, start),
    }
