"""Figures by shift: FTT, DPHU, Pareto, line, build, bay (rules 9 to 12, 16)."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

from second_opinion import unit_views
from second_opinion.base_views import begun_windows, crew_of, defects, first_runs, is_production
from second_opinion.catalogue import cell_of, code_row, gravest, may_have, plan_at
from second_opinion.figures import dphu, dphu_interval, ranked, ratio, wilson
from second_opinion.records import Book, Row

SHIFT = ("production_date", "shift")


def views(book: Book) -> dict[str, list[Row]]:
    """Every view whose key is a shift."""
    firsts = [row for row in first_runs(book) if is_production(book, row["vin"])]
    found = [row for row in defects(book) if is_production(book, row["vin"])]
    runs = [run for run in book.runs if is_production(book, run["vin"])]
    return {
        "ftt_by_shift": ftt_by_shift(book, runs, firsts),
        "dphu_by_shift": dphu_by_shift(book, runs, firsts, found),
        "pareto_by_shift": pareto(book, firsts, found),
        "pareto_window": pareto_window(book, firsts, found),
        "bay_by_shift": bay_by_shift(book, runs, firsts),
        "line_by_shift": line_by_shift(book, firsts, found),
        "ftt_by_build": ftt_by_build(book),
    }


def grouped(rows: list[Row], *names: str) -> dict[Any, list[Row]]:
    """Rows by some of their columns."""
    found: dict[Any, list[Row]] = {}
    for row in rows:
        found.setdefault(tuple(row[name] for name in names), []).append(row)
    return found


def shift_of(row: Row) -> tuple[Any, Any]:
    """Production date and shift of a row."""
    return row["production_date"], row["shift"]


def keyed(book: Book, key: tuple[Any, ...], *names: str) -> Row:
    """The key columns of a row by shift, with the crew."""
    return dict(zip((*SHIFT, *names), key, strict=True)) | {"crew": crew_of(book, *key[:2])}


def vins(rows: list[Row]) -> set[str]:
    """The units of some rows."""
    return {row["vin"] for row in rows}


def pending_units(book: Book) -> dict[Any, set[str]]:
    """Units with void runs only, by the shift and test of their last void run (rule 9)."""
    found: dict[Any, set[str]] = {}
    for (vin, test), row in book.status.items():
        if row["attempts"] == 0 and row["production_date"] and is_production(book, vin):
            found.setdefault((row["production_date"], row["shift"], test), set()).add(vin)
    return found


def uncounted(runs: list[Row], reasons: Callable[[str], bool]) -> int:
    """The number of uncounted runs whose reason fits."""
    return sum(not run["counts"] and reasons(run["void_reason"]) for run in runs)


def ftt_by_shift(book: Book, runs: list[Row], firsts: list[Row]) -> list[Row]:
    """One row a shift and test: first-time-through and what stands around it."""
    first_by, waiting = grouped(firsts, *SHIFT, "test"), pending_units(book)
    rows = []
    for key, mine in grouped(runs, *SHIFT, "test").items():
        first = first_by.get(key, [])
        tested, passed = len(first), sum(row["passed"] for row in first)
        pending = len(waiting.get(key, ()))
        low, high = wilson(passed, tested)
        rows.append(
            keyed(book, key, "test")
            | {
                "presented": len(vins(mine)),
                "tested": tested,
                "passed_first": passed,
                "ftt": ratio(passed, tested),
                "low": low,
                "high": high,
                "pending": pending,
                "worst": ratio(passed, tested + pending),
                "best": ratio(passed + pending, tested + pending),
                "void_runs": uncounted(mine, lambda reason: reason != "aborted"),
                "aborted_runs": uncounted(mine, lambda reason: reason == "aborted"),
                "retested": len(vins([run for run in mine if (run["attempt"] or 0) >= 2])),
                "settled": sent_since(book, key[:2], [key[2]]),
            }
        )
    return rows


def later_findings(runs: list[Row], role: str) -> int:
    """The number of codes and zones with a role, a run at a time."""
    return sum(
        len({(f["code"], f["zone"]) for f in run["findings"].values() if f["counts_as"] == role})
        for run in runs
    )


def dphu_by_shift(book: Book, runs: list[Row], firsts: list[Row], found: list[Row]) -> list[Row]:
    """One row a shift and test: defects per hundred units."""
    first_by, found_by = grouped(firsts, *SHIFT, "test"), grouped(found, *SHIFT, "test")
    rows = []
    for key, mine in grouped(runs, *SHIFT, "test").items():
        first, bad = first_by.get(key, []), found_by.get(key, [])
        counts = [row["defects"] for row in first]
        low, high = dphu_interval(counts)
        demerits = sum(row["demerits"] or 0 for row in bad)
        rows.append(
            keyed(book, key, "test")
            | {
                "tested": len(first),
                "defects": len(bad),
                "quantity": sum(row["quantity"] for row in bad),
                "dphu": dphu(counts),
                "low": low,
                "high": high,
                "demerits": demerits,
                "demerits_per_unit": ratio(demerits, len(first)),
                "retest_defects": later_findings(mine, "retest"),
                "masked_defects": later_findings(mine, "masked"),
                "unclassed": sum(row["severity"] is None for row in bad),
            }
        )
    return rows


def pareto(book: Book, firsts: list[Row], found: list[Row]) -> list[Row]:
    """One row a shift, test and code: defects, at risk, rank and running share."""
    rows = []
    for key, bad in grouped(found, *SHIFT, "test").items():
        tested = [row for row in firsts if (*shift_of(row), row["test"]) == key]
        codes = [code_figures(book, tested, mine) for mine in grouped(bad, "code").values()]
        rows += [keyed(book, key, "test") | row for row in ranked(codes)]
    return rows


def code_figures(book: Book, tested: list[Row], bad: list[Row]) -> Row:
    """The figures of one code among some tested units."""
    last = max(bad, key=lambda row: row["at"])
    known = code_row(book, last["code"], last["test"], last["at"]) or {}
    showing = vins(bad)
    applies_when = known.get("applies_when")
    at_risk = {vin for vin in vins(tested) if vin in showing or may_have(book, vin, applies_when)}
    per_risk = ratio(len(bad), len(at_risk))
    return {
        "code": last["code"],
        "title": last["title"],
        "owner_area": last["owner_area"],
        "severity": gravest([row["severity"] for row in bad]),
        "safety_related": any(row["safety_related"] for row in bad),
        "defects": len(bad),
        "units": len(showing),
        "at_risk": len(at_risk),
        "per_100_at_risk": None if per_risk is None else 100 * per_risk,
        "demerits": sum(row["demerits"] or 0 for row in bad),
    }


def pareto_window(book: Book, firsts: list[Row], found: list[Row]) -> list[Row]:
    """The Pareto over the twenty windows that end with each shift."""
    begun = begun_windows(book)
    keys = [shift_of(window) for window in begun]
    rows = []
    for number, key in enumerate(keys, start=1):
        span = set(keys[max(number - 20, 0) : number])
        for test in book.settings["test"]:
            bad = [
                d for d in found if d["test"] == test and (d["production_date"], d["shift"]) in span
            ]
            tested = [
                r
                for r in firsts
                if r["test"] == test and (r["production_date"], r["shift"]) in span
            ]
            codes = [code_figures(book, tested, mine) for mine in grouped(bad, "code").values()]
            rows += [keyed(book, (*key, test), "test") | row for row in ranked(codes)]
    return rows


def bay_by_shift(book: Book, runs: list[Row], firsts: list[Row]) -> list[Row]:
    """One row a shift, test, station and bay."""
    names = (*SHIFT, "test", "station", "bay")
    first_by = grouped(firsts, *names)
    rows = []
    for key, mine in grouped(runs, *names).items():
        first = first_by.get(key, [])
        passed, presented = sum(row["passed"] for row in first), len(vins(mine))
        void = uncounted(mine, lambda reason: reason != "aborted")
        low, high = wilson(passed, len(first))
        shown = void <= 0.05 * presented
        whole = [run for run in mine if run["result"] != "aborted"]
        raw = sum(run["result"] == "pass" for run in whole)
        rows.append(
            keyed(book, key, "test", "station", "bay")
            | {
                "presented": presented,
                "tested": len(first),
                "passed_first": passed,
                "ftt": ratio(passed, len(first)),
                "low": low if shown else None,
                "high": high if shown else None,
                "raw_passed": raw,
                "raw_pass_rate": ratio(raw, len(whole)),
                "void_runs": void,
            }
        )
    return rows


def line_cohorts(book: Book) -> dict[Any, list[Row]]:
    """Production units by the shift of their line-off."""
    units = [u for u in book.units.values() if u["line_date"] and u["kind"] == "production"]
    return grouped(units, "line_date", "line_shift")


def line_by_shift(book: Book, firsts: list[Row], found: list[Row]) -> list[Row]:
    """One row a line cohort (rule 11)."""
    rows = []
    for key, cohort in line_cohorts(book).items():
        built, names = len(cohort), vins(cohort)
        states = [unit["line_state"] for unit in cohort]
        went, failed = states.count("went_through"), states.count("failed_one")
        undecided = built - went - failed
        decided = 20 * undecided <= built
        low, high = wilson(went, went + failed)
        faults = [line_defect(book, row) for row in found if row["vin"] in names]
        seen = grouped(faults, "vin", "root", "cell")
        counts = [sum(vin == unit["vin"] for vin, _, _ in seen) for unit in cohort]
        dphu_low, dphu_high = dphu_interval(counts)
        rows.append(
            keyed(book, key)
            | {
                "built": built,
                "went_through": went,
                "failed_one": failed,
                "undecided": undecided,
                "ftt": ratio(went, went + failed) if decided else None,
                "low": low if decided else None,
                "high": high if decided else None,
                "worst": ratio(went, built),
                "best": ratio(went + undecided, built),
                "rty": rolled(book, firsts, names),
                "defects": len(seen),
                "dphu": dphu(counts),
                "dphu_low": dphu_low,
                "dphu_high": dphu_high,
                "settled": settled(book, *key),
            }
        )
    return rows


def line_defect(book: Book, defect: Row) -> Row:
    """What makes two defects one fault of a unit (rule 12)."""
    cell = cell_of(book, defect["zone"], defect["test"])
    return {"vin": defect["vin"], "root": defect["root_code"], "cell": cell}


def required_of(book: Book, names: set[str]) -> list[tuple[str, str]]:
    """Unit and test of what the plan asks of some units."""
    return [key for key, row in book.status.items() if key[0] in names and row["required"]]


def rolled(book: Book, firsts: list[Row], names: set[str]) -> float | None:
    """The product of a cohort's FTT over its required tests; 0 where one is 0, else open where one is."""
    needed = required_of(book, names)
    shares = []
    for test in {test for _, test in needed}:
        tested = [r for r in firsts if r["test"] == test and (r["vin"], test) in needed]
        shares.append(ratio(sum(row["passed"] for row in tested), len(tested)))
    if not shares or None in shares:
        return 0.0 if 0 in shares else None
    product = 1.0
    for share in shares:
        product *= share or 0.0
    return product


def ftt_by_build(book: Book) -> list[Row]:
    """One row a line cohort, model and test."""
    rows = []
    for key, cohort in line_cohorts(book).items():
        for (model,), units in grouped(cohort, "model").items():
            names = vins(units)
            mine = [row for row in book.status.values() if row["vin"] in names]
            had = grouped([row for row in mine if row["required"] or row["attempts"]], "test")
            rows += [build_row(book, key, model, test, found) for (test,), found in had.items()]
    return rows


def build_row(book: Book, key: Any, model: str | None, test: str, mine: list[Row]) -> Row:
    """FTT of the units of a cohort and model that need a test."""
    tested = [row for row in mine if row["attempts"]]
    passed = sum(row["first_result"] == "pass" for row in tested)
    low, high = wilson(passed, len(tested))
    return keyed(book, key) | {
        "model": model,
        "test": test,
        "built": len(mine),
        "tested": len(tested),
        "passed_first": passed,
        "undecided": len(mine) - len(tested),
        "ftt": ratio(passed, len(tested)),
        "low": low,
        "high": high,
    }


def quiet_from(book: Book, key: tuple[Any, Any]) -> datetime | None:
    """When a shift may settle; never between shifts."""
    window = next((window for window in book.windows if shift_of(window) == key), None)
    wait = timedelta(hours=book.settings["plant"]["settle_hours"])
    return window["ends_at"] + wait if window else None


def sent_since(book: Book, key: tuple[Any, Any], tests: list[str]) -> bool:
    """True where every station of some tests that ran in a shift has sent a newer run."""
    quiet = quiet_from(book, key)
    ran = {run["station"] for run in book.runs if shift_of(run) == key and run["test"] in tests}
    newest = [max(r["at"] for r in book.runs if r["station"] == station) for station in ran]
    return quiet is not None and all(at > quiet for at in newest)


def settled(book: Book, production_date: Any, shift: Any) -> bool:
    """True where nothing about a line cohort is still to come (rule 11)."""
    key = (production_date, shift)
    quiet = quiet_from(book, key)
    if quiet is None or not any(at > quiet for at in book.units_made_at):
        return False
    tests = [test for test in book.settings["test"] if plan_at(book, test, quiet)]
    if not sent_since(book, key, tests):
        return False
    cohort = line_cohorts(book).get(key, [])
    return all(unit["line_state"] != "undecided" or excused(book, unit["vin"]) for unit in cohort)


def excused(book: Book, vin: str) -> bool:
    """True where an undecided unit is held, released, diverted or an escape."""
    statuses = {row["status"] for (unit, _), row in book.status.items() if unit == vin}
    lost = any(row["vin"] == vin for row in unit_views.escapes(book)["escape"])
    return bool(statuses & {"held", "released", "diverted"}) or lost
