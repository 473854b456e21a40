"""Everything known of a unit, in order: a row for each thing told of it."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from second_opinion.records import Book, Row
from second_opinion.status import repair_time

STEPS = ("line_off", "attribute", "run", "finding", "repair", "event")


def views(book: Book) -> dict[str, list[Row]]:
    """The one view that tells everything of a unit of any kind."""
    rows = [line_off(unit) for unit in book.units.values() if unit["line_off_at"] is not None]
    rows += [attribute(row) for row in book.attributes]
    for run in book.runs:
        rows.append(ran(run))
        rows += [found(run, finding) for finding in run["findings"].values()]
    rows += [repaired(row) for row in book.repairs]
    rows += [happened(row) for row in book.events]
    return {"unit_timeline": rows}


def entry(what: str, vin: str, at: datetime | None, **told: Any) -> Row:
    """One row; a thing without a test, a place, an outcome, a detail or a run has none there."""
    empty = dict.fromkeys(("test", "place", "outcome", "detail", "run_id"))
    return {"vin": vin, "at": at, "step_no": STEPS.index(what) + 1, "what": what} | empty | told


def words(*parts: Any) -> str | None:
    """What is known of some parts, with a blank between; None where nothing is."""
    return " ".join(str(part) for part in parts if part is not None) or None


def line_off(unit: Row) -> Row:
    """The unit left its line; the outcome is what its tests made of it there (rule 11)."""
    return entry(
        "line_off",
        unit["vin"],
        unit["line_off_at"],
        place=unit["line"],
        outcome=unit["line_state"],
        detail=words(unit["kind"], unit["model"], unit["build_seq"]),
    )


def attribute(row: Row) -> Row:
    """A fact of a unit, without a time where none was sent."""
    return entry(
        "attribute",
        row["vin"],
        row.get("at"),
        place=row.get("station"),
        outcome=row["text_value"],
        detail=words(row["name"], row.get("measure_unit"), row.get("source")),
    )


def ran(run: Row) -> Row:
    """A run at its end: its attempt where it counts, else why it is void."""
    told = f"attempt {run['attempt']}" if run["counts"] else f"void: {run['void_reason']}"
    place = words(run["station"], run["bay"])
    where = {"test": run["test"], "place": place, "run_id": run["run_id"]}
    return entry("run", run["vin"], run["at"], outcome=run["result"], detail=told, **where)


def found(run: Row, finding: Row) -> Row:
    """A finding at the end of its run, with what it counts as."""
    names = ("counts_as", "severity", "step", "note")
    where = {"test": run["test"], "place": finding["zone"], "run_id": run["run_id"]}
    detail = words(*(finding.get(name) for name in names))
    return entry("finding", run["vin"], run["at"], outcome=finding["code"], detail=detail, **where)


def repaired(row: Row) -> Row:
    """A repair at its end, else its start, else its entry; one that has not ended is open."""
    names = ("action", "code", "zone", "part", "lot")
    still = "(open)" if row.get("ended_at") is None else None
    return entry(
        "repair",
        row["vin"],
        repair_time(row),
        test=row.get("test"),
        place=row.get("place"),
        outcome=row.get("class"),
        detail=words(*(row.get(name) for name in names), still),
    )


def happened(row: Row) -> Row:
    """An event, with the paper behind it and a remark."""
    detail = words(row.get("reference"), row.get("note"))
    told = {"place": row.get("place"), "outcome": row["kind"], "detail": detail}
    return entry("event", row["vin"], row["at"], **told)
