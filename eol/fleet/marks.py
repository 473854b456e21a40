"""Marks of what a store holds: the rows and a fingerprint of each table and production month.

Comparing them with those published tells the touched months, whatever touched them: a file, a
correction, a catalogue row, a new calendar, a restored backup.
"""

from __future__ import annotations

from eol.fleet import layout
from eol.fleet.manifest import Part
from eol.store.database import Database, quoted

NO_ROWS = ""
"""Month of the mark of a monthly table without rows: that it was published, and is empty."""


def part_marks(copy: Database) -> tuple[Part, ...]:
    """Return the parts that a published copy makes, by table and month."""
    copy.run("lake", "run_month")
    copy.run("lake", "unit_month")
    return tuple(part for table in layout.TABLES for part in _marks(copy, table))


def group(table: str) -> str:
    """Say by what a table goes into months: run, unit, date or whole.

    Example:
        >>> group("finding"), group("zone")
        ('by_run', 'whole')
    """
    if table in layout.BY_RUN:
        return "by_run"
    if table in layout.BY_UNIT:
        return "by_unit"
    return "by_date" if table in layout.BY_DATE else "whole"


def _marks(copy: Database, table: str) -> list[Part]:
    rows = copy.template("lake", f"marks_{group(table)}", {"table": quoted(table)})
    parts = [Part(table, *row) for row in rows.iter_rows()]
    return parts or [Part(table, NO_ROWS, 0, "")]
