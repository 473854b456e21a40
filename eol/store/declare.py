"""Holds the declared tables of the store against plant.toml (rule 4), and keeps the calendar filled (rule 3).

Adding what is yet to come is free; a change that moves figures already counted needs a reason.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, date, datetime, timedelta

import polars as pl

from eol.errors import PlantFileError
from eol.plant.calendar import ShiftWindow, shift_windows
from eol.plant.clauses import parse_applies_when
from eol.plant.declared import declared_tables
from eol.plant.sections import Settings
from eol.store.database import Database, quoted

# What may change without moving a figure: names, order, waiting times, and where a bench stands.
_FREE_COLUMNS: Mapping[str, tuple[str, ...]] = {
    "plant_setting": ("name", "silence_limit"),
    "test_definition": ("title", "position"),
    "test_plan": ("valid_to",),
    "condition_limit": ("valid_to",),
    "clock_offset": (),
}
_FREE_TABLES = frozenset({"station", "reference"})
_OF_PLAN = "plan:"
_AHEAD = timedelta(days=8)
_WINDOW_SCHEMA = {
    "production_date": pl.Date(),
    "shift": pl.String(),
    "crew": pl.String(),
    "starts_at": pl.Datetime("us", "UTC"),
    "ends_at": pl.Datetime("us", "UTC"),
    "cancelled": pl.Boolean(),
}


def declare(database: Database, settings: Settings, *, reason: str | None, now: datetime) -> bool:
    """Write what plant.toml declares into the store; the caller holds the transaction.

    Args:
        database: the open store.
        settings: the plant's settings.
        reason: why the past is rewritten, None where it must not be.
        now: the wall clock, UTC, kept beside the reason.

    Returns:
        True where the past was rewritten, so that every unit must be stamped again.

    Raises:
        PlantFileError: plant.toml would move figures already counted and no reason is given.
    """
    declared = declared_tables(settings)
    stored = {name: _stored(database, name) for name in declared}
    changed = [name for name, frame in declared.items() if not _same(frame, stored[name])]
    clock = database.query_rows("store", "data_clock")[0][0]
    moved = [n for n in changed if clock and _moves_past(n, declared[n], stored[n], clock)]
    if clock and _calendar_moved(database, settings, clock):
        moved.append("shift_window")
    listed = sorted(set(declared["reference"]["vin"]) ^ set(stored["reference"]["vin"]))
    if clock and listed and database.query_rows("store", "kinds_moved", vins=listed)[0][0]:
        moved.append("reference")
    if moved and reason is None:
        raise PlantFileError(
            f"plant.toml changes the past: {', '.join(moved)}",
            where="plant.toml",
            hint="Give rows of the future a valid_from, or run eol ingest --rewrite-history REASON.",
        )
    for name in changed:
        _replace(database, name, declared[name])
    if listed:
        database.run("store", "touch_listed", vins=listed)
    if moved:
        was = {name: stored[name].write_json() for name in moved if name in stored}
        database.run(
            "store",
            "note_rewrite",
            made_at=now,
            reason=reason,
            changed=",".join(moved),
            was="{" + ",".join(f'"{name}": {rows}' for name, rows in was.items()) + "}",
        )
    return bool(moved)


def fill_calendar(
    database: Database, settings: Settings, *, newest: datetime | None = None
) -> None:
    """Write the windows that plant.toml gives for every day from starts_on to a week ahead of the data.

    A window that came by the feed `shifts` stays in place of the one of its production date and shift.

    Args:
        database: the open store, in a transaction.
        settings: plant.toml.
        newest: the latest time, UTC, of runs that have come and are not stored yet.
    """
    stored = database.query_rows("store", "data_clock")[0][0]
    clock = max((at for at in (stored, newest) if at is not None), default=None)
    last = max((clock or datetime.now(UTC)).date(), settings.plant.starts_on) + _AHEAD
    windows = shift_windows(settings, settings.plant.starts_on, last)
    with database.lent("arriving", _window_frame(windows)):
        database.run("store", "fill_calendar")


def refresh_clauses(database: Database) -> None:
    """Write the clauses of the catalogue's applies_when as rows of `applies` (rule 10)."""
    rows = [
        (f"code:{code}:{test or ''}", valid_from, clause.number, clause.name, value)
        for code, test, valid_from, text in database.query_rows("store", "catalogue_clauses")
        for clause in parse_applies_when(text)
        for value in clause.values
    ]
    frame = pl.DataFrame(
        rows,
        schema={
            "owner": pl.String,
            "valid_from": pl.Datetime("us", "UTC"),
            "clause": pl.Int64,
            "name": pl.String,
            "value": pl.String,
        },
        orient="row",
    )
    with database.lent("arriving", frame):
        database.run("store", "refresh_clauses")


def _stored(database: Database, name: str) -> pl.DataFrame:
    frame = database.view(name)
    if name == "applies":
        return frame.filter(pl.col("owner").str.starts_with(_OF_PLAN))
    return frame


def _same(declared: pl.DataFrame, stored: pl.DataFrame) -> bool:
    return _rows(declared) == _rows(stored)


def _rows(frame: pl.DataFrame) -> set[tuple[object, ...]]:
    return set(frame.iter_rows())


def _moves_past(name: str, declared: pl.DataFrame, stored: pl.DataFrame, clock: datetime) -> bool:
    """Tell whether a row was lost or gained that applies to anything up to the data clock."""
    if name in _FREE_TABLES:
        return False
    free = _FREE_COLUMNS.get(name, ())
    before, after = (frame.drop(free) for frame in (stored, declared))
    if name.startswith("test_"):
        known = set(stored["test"])
        after = after.filter(pl.col("test").is_in(known) | pl.lit(name == "test_plan"))
    if "valid_from" in before.columns:
        before, after = (f.filter(_begun(clock)) for f in (before, after))
    return _rows(before) != _rows(after)


def _begun(clock: datetime) -> pl.Expr:
    return pl.col("valid_from").is_null() | (pl.col("valid_from") <= clock)


def _calendar_moved(database: Database, settings: Settings, clock: datetime) -> bool:
    """Tell whether plant.toml gives other windows than those filled in up to the data clock."""
    stored = database.view("shift_window")
    begun = stored.filter((pl.col("starts_at") <= clock) & pl.col("file_id").is_null())
    if begun.is_empty():
        return False
    told = stored.filter(pl.col("file_id").is_not_null()).select("production_date", "shift")
    first, last = settings.plant.starts_on, _last_day(begun)
    fresh = _window_frame(shift_windows(settings, first, last)).filter(pl.col("starts_at") <= clock)
    fresh = fresh.join(told, on=["production_date", "shift"], how="anti")
    return _rows(fresh) != _rows(begun.select(*_WINDOW_SCHEMA))


def _last_day(windows: pl.DataFrame) -> date:
    day = windows["production_date"].max()
    assert isinstance(day, date)
    return day


def _window_frame(windows: list[ShiftWindow]) -> pl.DataFrame:
    rows = [
        (w.production_date, w.shift, w.crew, w.starts_at, w.ends_at, w.cancelled) for w in windows
    ]
    return pl.DataFrame(rows, schema=_WINDOW_SCHEMA, orient="row")


def _replace(database: Database, name: str, frame: pl.DataFrame) -> None:
    places = {"table": quoted(name)}
    with database.lent("arriving", frame):
        if name == "applies":
            database.run("store", "replace_plan_clauses")
        else:
            database.template("store", "replace_declared", places)
