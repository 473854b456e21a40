"""The base views: a row a unit and test at attempt 1, and a row a defect (rules 8, 13)."""

from __future__ import annotations

from typing import Any

from second_opinion.catalogue import EVER, code_row, gravest, hv_near, root_of
from second_opinion.records import Book, Row
from second_opinion.rows import truth

RUN_COLUMNS = [
    "vin",
    "test",
    "run_id",
    "station",
    "bay",
    "program",
    "operator",
    "at",
    "production_date",
    "shift",
    "result",
]
UNIT_COLUMNS = ["model", "line", "build_seq"]


def views(book: Book) -> dict[str, list[Row]]:
    """The base views of production units, and of all units."""
    made = {"first_run_all": first_runs(book), "defect_all": defects(book)}
    for name in ("first_run", "defect"):
        rows = made[f"{name}_all"]
        made[name] = [row for row in rows if is_production(book, row["vin"])]
    made["attribute_latest"] = attribute_latest(book)
    return made


def is_production(book: Book, vin: str) -> bool:
    """True for a unit that belongs in the figures (rule 13)."""
    return bool(book.units[vin]["kind"] == "production")


def crew_of(book: Book, production_date: Any, shift: Any) -> str | None:
    """The crew of a shift."""
    for window in book.windows:
        if (window["production_date"], window["shift"]) == (production_date, shift):
            crew: str | None = window["crew"]
            return crew
    return None


def begun_windows(book: Book) -> list[Row]:
    """The shifts that have begun by the data clock, in order."""
    return [w for w in book.windows if book.as_of and w["starts_at"] <= book.as_of]


def common(book: Book, run: Row) -> Row:
    """What every row of a base view has of its run and unit."""
    unit = book.units[run["vin"]]
    row = {name: run[name] for name in RUN_COLUMNS} | {name: unit[name] for name in UNIT_COLUMNS}
    return row | {"crew": crew_of(book, run["production_date"], run["shift"])}


def first_runs(book: Book) -> list[Row]:
    """One row a unit and test: its first counted run."""
    found = defects(book)
    rows = []
    for run in book.runs:
        if run["attempt"] != 1:
            continue
        mine = [d for d in found if (d["vin"], d["test"]) == (run["vin"], run["test"])]
        rows.append(
            common(book, run)
            | {
                "passed": run["result"] == "pass",
                "defects": len(mine),
                "quantity": sum(defect["quantity"] for defect in mine),
                "demerits": sum(defect["demerits"] or 0 for defect in mine),
            }
        )
    return rows


def defects(book: Book) -> list[Row]:
    """One row a code and zone of a first counted run."""
    rows = []
    for run in book.runs:
        grouped: dict[Any, list[Row]] = {}
        for finding in run["findings"].values():
            if finding["counts_as"] == "defect":
                grouped.setdefault((finding["code"], finding["zone"]), []).append(finding)
        rows += [defect(book, run, code, zone, found) for (code, zone), found in grouped.items()]
    return rows


def defect(book: Book, run: Row, code: str, zone: str | None, findings: list[Row]) -> Row:
    """One defect, with what the catalogue says of it at the run's end."""
    known = code_row(book, code, run["test"], run["at"]) or {}
    severity = gravest([f["severity"] for f in findings]) or known.get("severity")
    weights = book.settings["plant"]["demerits"]
    wet = run["test"] == "water" and hv_near(book, zone, run["test"])
    steps = [f["step"] for f in findings if f["step"] is not None]
    row = common(book, run)
    del row["result"], row["program"], row["operator"]
    return row | {
        "code": code,
        "zone": zone,
        "step": min(steps, default=None),
        "severity": severity,
        "owner_area": known.get("owner_area"),
        "safety_related": bool(truth(known.get("safety_related"))) or wet,
        "title": known.get("title"),
        "quantity": sum(f["quantity"] or 1 for f in findings),
        "root_code": root_of(book, code, run["test"], run["at"]),
        "demerits": weights.get(severity),
    }


def attribute_latest(book: Book) -> list[Row]:
    """The latest value of each attribute of each unit."""
    newest: dict[Any, Row] = {}
    for row in sorted(book.attributes, key=lambda row: (row.get("at") or EVER, row["rank"])):
        newest[row["vin"], row["name"]] = row
    return list(newest.values())
