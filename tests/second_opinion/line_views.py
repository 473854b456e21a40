"""What figures by shift are made of: the shifts before each one, the units that left the line."""

from __future__ import annotations

from datetime import timedelta

from second_opinion.base_views import begun_windows, is_production
from second_opinion.records import Book, Row

COVERED, REACH = 20, timedelta(days=400)
OF_STATUS = ("test", "required", "attempts", "first_run_id", "first_result", "status")


def views(book: Book) -> dict[str, list[Row]]:
    """The views of shifts before a shift, and of line cohorts."""
    return {"shift_cover": shift_cover(book), "line_standing": line_standing(book)}


def shift_cover(book: Book) -> list[Row]:
    """One row a begun shift and one of the 20 that end with it, none more than 400 days back."""
    rows = []
    begun = begun_windows(book)
    for number, ending in enumerate(begun, start=1):
        for part in begun[max(number - COVERED, 0) : number]:
            if part["starts_at"] > ending["starts_at"] - REACH:
                row = {name: ending[name] for name in ("production_date", "shift", "crew")}
                covered = {"part_date": part["production_date"], "part_shift": part["shift"]}
                rows.append(row | covered)
    return rows


def line_standing(book: Book) -> list[Row]:
    """One row a production unit that left the line and test that it needs or ran (rule 11).

    The bound for look-ups is the tool's own: it may be earlier than it need be.
    """
    rows = []
    for (vin, _), status in book.status.items():
        unit = book.units[vin]
        if unit["line_date"] is None or not is_production(book, vin):
            continue
        left = {"production_date": unit["line_date"], "shift": unit["line_shift"]}
        of_unit = {name: unit[name] for name in ("vin", "model", "line_state")}
        rows.append(left | of_unit | {name: status[name] for name in OF_STATUS})
    return rows
