"""Tested units, alone and within twenty shifts, and the codes that each can have (rules 7, 10, 13)."""

from __future__ import annotations

from typing import Any

from second_opinion.base_views import begun_windows, is_production
from second_opinion.catalogue import clauses_of, code_row, latest_value, may_have
from second_opinion.records import Book, Row

WINDOWS = 20
TESTED = ("production_date", "shift", "test", "vin", "run_id", "at")
AT_RISK = ("windows", "production_date", "shift", "run_id", "vin", "test")


def views(book: Book) -> dict[str, list[Row]]:
    """Production units at attempt 1, in each scope, and beside each code with applies_when."""
    tested = [run for run in book.runs if run["attempt"] == 1 and is_production(book, run["vin"])]
    risks = {run["run_id"]: risks_of(book, run) for run in tested}
    units = [tested_unit(book, run) for run in tested]
    scoped = scoped_units(book, units)
    return {
        "tested_unit": units,
        "scoped_unit": scoped,
        "unit_at_risk": [
            {name: row[name] for name in AT_RISK} | risk
            for row in scoped
            for risk in risks[row["run_id"]]
        ],
    }


def tested_unit(book: Book, run: Row) -> Row:
    """A unit at its first counted run of a test."""
    unit = book.units[run["vin"]]
    return {name: run[name] for name in TESTED} | {name: unit[name] for name in ("model", "line")}


def scoped_units(book: Book, tested: list[Row]) -> list[Row]:
    """Each tested unit in its own shift, and in each shift whose last twenty hold that shift.

    The shifts are the windows begun by the data clock; a run between shifts is in no twenty.
    """
    begun = begun_windows(book)
    keys = [(window["production_date"], window["shift"]) for window in begun]
    rows = [{"windows": 1} | row for row in tested]
    for row in tested:
        key = (row["production_date"], row["shift"])
        first = keys.index(key) if key in keys else len(keys)
        for day, shift in keys[first : first + WINDOWS]:
            scope = {"windows": WINDOWS, "production_date": day, "shift": shift}
            rows.append(row | scope)
    return rows


def risks_of(book: Book, run: Row) -> list[Row]:
    """The codes that only some units can have, and whether this unit can (rule 10)."""
    made = []
    for code in {row["code"] for row in book.codes}:
        known: Any = code_row(book, code, run["test"], run["at"]) or {}
        if clauses_of(known.get("applies_when")):
            made.append({"code": code} | risk(book, run, code, known["applies_when"]))
    return made


def risk(book: Book, run: Row, code: str, applies_when: str) -> Row:
    """At risk where no clause is known to miss, or the unit shows the defect.

    Not known is only what an unknown attribute alone puts at risk.
    """
    findings = run["findings"].values()
    shows = any(f["code"] == code and f["counts_as"] == "defect" for f in findings)
    can_have = may_have(book, run["vin"], applies_when)
    asked = [latest_value(book, run["vin"], name) for name, _ in clauses_of(applies_when)]
    return {"at_risk": shows or can_have, "known": shows or not can_have or None not in asked}
