"""All that a plant holds, and its stamps computed anew, as rows that can be compared."""

from __future__ import annotations

from collections import Counter
from typing import Any

from eol.plant.folder import PlantFolder
from eol.store.connect import open_store, write_lock
from eol.store.database import Database
from eol.store.stamp import stamp_units

Rows = Counter[tuple[Any, ...]]

OF_A_LOAD = {
    "source_file": ("loaded_at", "accepted", "repeated", "amended", "rejected"),
    "schema_version": ("made_at",),
    "history_rewrite": ("made_at",),
}
"""What tells of one load and not of the files: when it was, and how many rows were news to it."""

HELPERS = ("earliest_at",)
"""Bounds for looking rows up; they may be earlier than they need be."""


class RolledBackError(Exception):
    """Leaves a transaction without a trace."""


def tables(
    folder: PlantFolder, *, without: dict[str, tuple[str, ...]] | None = None
) -> dict[str, Rows]:
    """Every table of the store by its name, each as its rows with how often they stand.

    Args:
        folder: the plant.
        without: columns left out, by table; by default those that tell of one load alone.
    """
    with write_lock(folder), open_store(folder) as store:
        return all_rows(store, OF_A_LOAD if without is None else without)


def all_rows(store: Database, without: dict[str, tuple[str, ...]]) -> dict[str, Rows]:
    """The same of a store that is open."""
    names = store.execute(
        "SELECT schema_name, table_name FROM duckdb_tables() WHERE NOT temporary ORDER BY ALL", {}
    ).fetchall()
    return {
        f"{schema}.{name}": rows_of(store, f'{schema}."{name}"', (*without.get(name, ()), *HELPERS))
        for schema, name in names
    }


def rows_of(store: Database, table: str, left_out: tuple[str, ...]) -> Rows:
    """The rows of one table without some columns."""
    frame = store.query(f"FROM {table}", {}).drop(left_out, strict=False)
    return Counter(frame.iter_rows())


def changed(before: dict[str, Rows], after: dict[str, Rows]) -> list[str]:
    """What differs, a line a row: gone or new."""
    lines = [
        f"{n}: gone {row}" for n, rows in before.items() for row in rows - after.get(n, Counter())
    ]
    lines += [
        f"{n}: new {row}" for n, rows in after.items() for row in rows - before.get(n, Counter())
    ]
    return sorted(lines)


def moved_by_stamping_all(folder: PlantFolder) -> list[str]:
    """What stamping every unit from nothing changes in the store; nothing of it is kept."""
    lines: list[str] = []
    with write_lock(folder), open_store(folder) as store:
        try:
            with store.transaction():
                before = all_rows(store, {})
                store.run("load", "touch_all")
                stamp_units(store)
                lines = changed(before, all_rows(store, {}))
                raise RolledBackError
        except RolledBackError:
            return lines
