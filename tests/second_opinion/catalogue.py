"""What the catalogue, the plan and the limits say at a time (rules 4, 8, 10, 12)."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from second_opinion.records import Book, Row
from second_opinion.rows import truth
from second_opinion.times import midnight, zone_of

EVER = datetime.min.replace(tzinfo=UTC)
GRAVEST = ["A", "B", "C", "D"]
Clauses = list[tuple[str, list[str]]]


def valid(rows: list[Row], at: datetime) -> Row | None:
    """The row valid at a time: the newest valid_from not after it, not yet ended."""
    fitting = [
        row
        for row in rows
        if (row.get("valid_from") or EVER) <= at
        and (row.get("valid_to") is None or row["valid_to"] > at)
    ]
    return max(fitting, key=lambda row: row.get("valid_from") or EVER, default=None)


def code_row(book: Book, code: str, test: str, at: datetime) -> Row | None:
    """The catalogue's row of a code: the test's own, else that of all tests."""
    rows = [row for row in book.codes if row["code"] == code]
    own = valid([row for row in rows if row.get("test") == test], at)
    return own or valid([row for row in rows if row.get("test") is None], at)


def is_equipment(book: Book, code: str, run: Row) -> bool:
    """True for a fault of the bench (rule 6)."""
    row = code_row(book, code, run["test"], run["at"])
    return row is not None and row.get("owner_area") == "equipment"


def root_of(book: Book, code: str, test: str, at: datetime) -> str:
    """The code that a code is counted with, along same_as (rule 12)."""
    seen = {code}
    while True:
        row = code_row(book, code, test, at)
        if row is None:
            others = [r for r in book.codes if r["code"] == code]
            row = valid(others, at)
        following = row.get("same_as") if row else None
        if following is None or following in seen:
            return code
        seen.add(following)
        code = following


def zone_row(book: Book, zone: str | None, test: str) -> Row | None:
    """The catalogue's row of a zone: the test's own, else that of all tests."""
    rows = [row for row in book.zones if row["zone"] == zone]
    for owner in (test, None):
        for row in rows:
            if row.get("test") == owner:
                return row
    return None


def cell_of(book: Book, zone: str | None, test: str) -> str | None:
    """The cell of a zone, the zone itself where it has none."""
    row = zone_row(book, zone, test)
    return (row.get("cell") if row else None) or zone


def hv_near(book: Book, zone: str | None, test: str) -> bool:
    """True where water would be near high voltage."""
    row = zone_row(book, zone, test)
    return bool(row and truth(row.get("hv_near")))


def can_hurt(book: Book, run: Row, code: str, zone: str | None) -> bool:
    """True for a finding that is safety-related: by its code, or as water in a zone hv_near."""
    known = code_row(book, code, run["test"], run["at"]) or {}
    wet = run["test"] == "water" and hv_near(book, zone, run["test"])
    return bool(truth(known.get("safety_related"))) or wet


def gravest(severities: list[str | None]) -> str | None:
    """The gravest class of some, None where none is known."""
    known = [severity for severity in GRAVEST if severity in severities]
    return known[0] if known else None


def dated(rows: list[Row], book: Book) -> list[Row]:
    """Rows of plant.toml with their days as times: a row ends where the next begins."""
    zone, first = zone_of(book.settings["plant"]["timezone"]), book.settings["plant"]["starts_on"]
    starts = [midnight(row.get("valid_from", first), zone) for row in rows]
    made = []
    for row, start in zip(rows, starts, strict=True):
        later = [other for other in starts if other > start]
        made.append(row | {"valid_from": start, "valid_to": min(later, default=None)})
    return made


def plan_at(book: Book, test: str, at: datetime) -> Row | None:
    """The plan of a test at a time; a test without one is required of every unit."""
    return valid(dated(book.test(test).get("plan") or [{"required": "every"}], book), at)


def limits_at(book: Book, test: str, at: datetime) -> list[Row]:
    """The required conditions of a test at a time (rule 4)."""
    rows = book.test(test).get("condition", [])
    found = []
    for name in {row["name"] for row in rows}:
        limit = valid(dated([row for row in rows if row["name"] == name], book), at)
        if limit is not None and limit.get("required", True):
            found.append(limit)
    return found


def clauses_of(text: str | None) -> Clauses:
    """The clauses of `roof=opening & model=WAG|VAN`."""
    if not text:
        return []
    parts = [clause.split("=", 1) for clause in text.split("&")]
    return [(name.strip(), [v.strip() for v in values.split("|")]) for name, values in parts]


def latest_value(book: Book, vin: str, name: str) -> str | None:
    """The latest attribute of a unit, its model and line too."""
    if name in ("model", "line"):
        known: Any = book.units.get(vin, {}).get(name)
        return None if known is None else str(known)
    rows = [row for row in book.attributes if row["vin"] == vin and row["name"] == name]
    if not rows:
        return None
    newest = max(rows, key=lambda row: (row.get("at") or EVER, row["rank"]))
    return None if newest["text_value"] is None else str(newest["text_value"])


def may_have(book: Book, vin: str, applies_when: str | None) -> bool:
    """True where every clause is met or unknown (rule 10)."""
    for name, values in clauses_of(applies_when):
        known = latest_value(book, vin, name)
        if known is not None and known not in values:
            return False
    return True
