"""Proves the store: all stamps computed anew from nothing, on a copy, and its invariants."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path

import polars as pl

from eol.plant.folder import PlantFolder
from eol.plant.settings import read_settings
from eol.sqlfiles import sql_files
from eol.store.connect import open_file, take_in_log, write_lock
from eol.store.database import Database, literal, quoted, quoted_list
from eol.store.declare import fill_calendar
from eol.store.stamp import stamp_units
from eol.store.whole_copy import copy_whole

STAMPED = ("run", "finding", "unit", "unit_status", "twin", "shift_window", "station_heard")
"""The tables whose rows stamps make or change."""


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that does not hold.

    Attributes:
        check: the invariant, or the stamped table.
        title: what is wrong, in words.
        examples: up to 20 rows, as told by the check.
    """

    check: str
    title: str
    examples: tuple[dict[str, object], ...]


@dataclass(frozen=True, slots=True)
class Verification:
    """What was checked and what does not hold."""

    units: int
    checks: int
    differences: tuple[Difference, ...]

    @property
    def holds(self) -> bool:
        """True where everything holds."""
        return not self.differences


def verify(folder: PlantFolder, *, wait_seconds: float = 60) -> Verification:
    """Check a store against its own rows; nothing in it is changed.

    Stamps are computed from nothing on a copy in the system's temporary folder, so twice the size
    of the store is needed on the disk.

    Raises:
        StoreError: the store cannot be read, or another process writes for the whole wait.
    """
    with tempfile.TemporaryDirectory(prefix="eol-verify-") as place:
        copy = Path(place) / "plant.duckdb"
        with write_lock(folder, wait_seconds=wait_seconds):
            take_in_log(folder)
            copy_whole(folder.store, copy)
        frozen = Path(place) / "stored.duckdb"
        copy_whole(copy, frozen)
        with open_file(copy) as fresh:
            return _verified(fresh, frozen, folder)


def _verified(fresh: Database, stored: Path, folder: PlantFolder) -> Verification:
    broken = [_broken(file.name, file.title, fresh) for file in sql_files("verify")]
    with fresh.transaction():
        fresh.run("load", "touch_all")
        fill_calendar(fresh, read_settings(folder.toml))
        units = stamp_units(fresh)
    fresh.template("verify_stamp", "attach", {"path": literal(str(stored))})
    differing = [_differing(table, fresh) for table in STAMPED]
    found = tuple(one for one in (*broken, *differing) if one is not None)
    return Verification(units, len(broken) + len(differing), found)


def _broken(name: str, title: str, database: Database) -> Difference | None:
    rows = database.run("verify", name)
    return _told(name, title, rows)


def _differing(table: str, database: Database) -> Difference | None:
    columns = [c for c in database.view(table).limit(0).columns if c != "earliest_at"]
    parts = {"table": quoted(table), "told": quoted_list(columns)}
    rows = database.template("verify_stamp", "differing", parts)
    return _told(table, f"rows of {table} differ from their stamps from nothing", rows)


def _told(check: str, title: str, rows: pl.DataFrame) -> Difference | None:
    return None if rows.is_empty() else Difference(check, title, tuple(rows.iter_rows(named=True)))
