"""Brings the rows of one file into the tables, inside a transaction that the caller holds (rule 1).

Each row's fate is decided by what names it and by the rank of its file, never by the order of loading:
a row without a rival is appended, a rival's loser is kept in `superseded`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

import polars as pl

from eol.store.arrived import Arrived, lent
from eol.store.database import Database, quoted, quoted_list
from eol.store.tables import FEED_TABLES, PARTS, STAMPS_OF_PARTS, FeedTable


@dataclass(frozen=True, slots=True)
class FileFacts:
    """A file as `source_file` keeps it; times are UTC."""

    file_id: int
    feed: str
    path: str
    sha256: str
    bytes: int
    made_at: datetime
    loaded_at: datetime
    rows: int


@dataclass(frozen=True, slots=True)
class Fate:
    """What became of rows: new ones, ones the store held already, and other versions of known ones."""

    accepted: int = 0
    repeated: int = 0
    amended: int = 0

    def __add__(self, other: Fate) -> Fate:
        return Fate(
            self.accepted + other.accepted,
            self.repeated + other.repeated,
            self.amended + other.amended,
        )


def write_rows(database: Database, file_id: int, tables: dict[str, pl.DataFrame]) -> Fate:
    """Write rows of a file that is noted already; its runs have their ids."""
    fate = Fate()
    if "run" in tables:
        fate += write_runs(database, file_id, tables)
    for name, frame in tables.items():
        if name in FEED_TABLES and frame.height:
            fate += write_keyed(database, FEED_TABLES[name], file_id, frame)
        elif name in PARTS and "run" not in tables:
            let_wait(database, name, file_id, frame)
    return fate


def join_waiting(database: Database, arrived: Arrived | None = None) -> None:
    """Give findings and readings that came apart to their runs, as far as those have come.

    Args:
        database: the open store, in a transaction.
        arrived: what has come without a rival.
    """
    with lent(database, arrived or Arrived()):
        for part in PARTS:
            _join_waiting(database, part)


def refuse_rows(
    database: Database, file_id: int, feed: str, *, tried: pl.DataFrame, rejected: pl.DataFrame
) -> None:
    """Put the rows that are refused still in the place of those that were tried again.

    Args:
        database: the open store, in a transaction.
        file_id: the file they came in.
        feed: its feed.
        tried: file_row of every row that was tried.
        rejected: file_row, reason, waits_for and raw of those refused again.
    """
    with database.lent("arriving", tried):
        database.run("load", "forget_refused", file_id=file_id)
    refuse(database, file_id, feed, rejected)


def note_keyed(database: Database, file_id: int, feed: str, keyed: pl.DataFrame) -> None:
    """Keep the rows that a unit key named, for the key may come to name another unit (rule 17)."""
    if keyed.height:
        with database.lent("arriving", keyed):
            database.run("load", "note_keyed", file_id=file_id, feed=feed)


def recount(database: Database, file_id: int, mended: int) -> None:
    """Count rows of a file that were refused before as accepted."""
    database.run("load", "recount", file_id=file_id, mended=mended)


def meet_again(
    database: Database, file_id: int, *, known_at: datetime, made_at: datetime, path: str
) -> None:
    """Take a content that is known: its earliest time and name stand, its rows are decided again (rule 1)."""
    database.run("load", "lower_made_at", file_id=file_id, made_at=made_at, path=path)
    if made_at < known_at:
        _decide_again(database, file_id)


def _decide_again(database: Database, file_id: int) -> None:
    database.run("load", "touch_file", file_id=file_id)
    if database.run("load", "standing_run", file_id=file_id).item():
        with database.lent("incoming_run", database.run("load", "no_run")):
            decide_runs(database)
        for part, key in PARTS.items():
            database.template("load", "no_part", {"part": quoted(part)})
            decide_part(database, part, key)
    for part, key in PARTS.items():
        places = {"part": quoted(part)}
        if database.template("load", "standing_part", places, file_id=file_id).item():
            decide_part(database, part, key)
    for table in FEED_TABLES.values():
        places = places_of(table)
        if database.template("load", "standing", places, file_id=file_id).item():
            database.template("load", "decide", places)
            touch(database, table, rows="pool")
            database.run("load", "decided")
            touch(database, table, rows="incoming")


def refuse(database: Database, file_id: int, feed: str, rejected: pl.DataFrame) -> None:
    """Keep the refused and the waiting rows of a file."""
    if rejected.height:
        with database.lent("arriving", rejected):
            database.run("load", "refuse", file_id=file_id, feed=feed)


def write_keyed(database: Database, table: FeedTable, file_id: int, frame: pl.DataFrame) -> Fate:
    """Write one file's rows of a table; those that others contest are decided by rank (rule 1)."""
    with database.lent("arriving", of_file(file_id, frame)):
        database.template("load", table.incoming, places_of(table))
    repeated, amended = contested_keys(database, table, frame)
    fate = Fate(frame.height, repeated, amended)
    places = places_of(table)
    if repeated or amended:
        database.template("load", "decide", places)
        touch(database, table, rows="pool")
    else:
        database.template("load", "append", places)
    touch(database, table, rows="incoming")
    return fate


def contested_keys(
    database: Database, table: FeedTable, frame: pl.DataFrame, *, rows: str = "incoming"
) -> tuple[int, int]:
    """Count the incoming rows whose key the table holds already: those that repeat its row, those that differ.

    Args:
        database: the open store.
        table: the table.
        frame: the rows as they came; a time that is part of the key bounds the look-up.
        rows: where SQL finds the rows.
    """
    told = tuple(c for c in frame.columns if c not in ("file_row", "file_id"))
    within = next((time for time in table.times if time in table.key), None)
    first_at = last_at = None
    if within and not frame[within].null_count():
        first_at, last_at = frame.select(
            pl.col(within).min().alias("first"), pl.col(within).max().alias("last")
        ).row(0)
    places = places_of(table, told) | {"rows": rows, "within": quoted(within or table.key[0])}
    (counts,) = database.template(
        "load", "contested", places, first_at=first_at, last_at=last_at
    ).iter_rows()
    return counts


def of_file(file_id: int, frame: pl.DataFrame) -> pl.DataFrame:
    """Return rows with the file they came in."""
    return frame.with_columns(pl.lit(file_id, dtype=pl.Int64).alias("file_id"))


def write_runs(database: Database, file_id: int, tables: dict[str, pl.DataFrame]) -> Fate:
    """Write one file's runs and what came with them; those that others contest are decided by rank (rule 1)."""
    runs = _incoming_runs(file_id, tables["run"])
    with database.lent("incoming_run", runs):
        contested = int(database.run("load", "contested_run").item())
        repeated = int(database.run("load", "repeated_run").item()) if contested else 0
        database.run("load", "append_run")
        if contested:
            decide_runs(database)
        for part, key in PARTS.items():
            with database.lent("arriving", tables[part]):
                database.run("load", "own_part", file_id=file_id)
            database.template("load", "append_part", {"part": quoted(part)})
            if contested:
                decide_part(database, part, key)
        places = {"rows": "incoming_run", "time": quoted("started_at")}
        database.template("load", "touch", places)
    return Fate(runs.height, repeated, contested - repeated)


def _incoming_runs(file_id: int, runs: pl.DataFrame) -> pl.DataFrame:
    """Keep as sent what corrections may mend."""
    return runs.with_columns(
        *(
            pl.col(name).alias(f"{name}_sent")
            for name in ("vin", "started_at", "ended_at", "result")
        ),
        pl.lit(file_id, dtype=pl.Int64).alias("file_id"),
    )


def decide_runs(database: Database) -> None:
    """Let the contested runs be decided by rank (rule 1)."""
    database.run("load", "decide_run")


def decide_part(database: Database, part: str, key: tuple[str, ...]) -> None:
    """Let the findings or readings of runs with several versions be decided by rank (rule 1)."""
    unsent = ("standing", "stands", *STAMPS_OF_PARTS[part])
    places = {"part": quoted(part), "key": quoted_list(key), "unsent": quoted_list(unsent)}
    database.template("load", "decide_part", places)


def let_wait(database: Database, part: str, file_id: int, frame: pl.DataFrame) -> None:
    """Let the findings or readings that came apart wait for their runs."""
    with database.lent("arriving", frame):
        database.template(
            "load", "waiting_part", {"waiting": quoted(f"waiting_{part}")}, file_id=file_id
        )


def _join_waiting(database: Database, part: str) -> None:
    places = {"waiting": quoted(f"waiting_{part}")}
    (bounds,) = database.template("load", "waiting_bounds", places).iter_rows(named=True)
    if not bounds["waiting"]:
        return
    if not database.template("load", "found_part", places, **bounds).item():
        return
    key = PARTS[part]
    places = {
        "part": quoted(part),
        "key": quoted_list(key),
        "p_key": quoted_list(key, "p."),
        "t_key": quoted_list(key, "t."),
    }
    contested = database.template("load", "contested_part", places).item()
    database.template("load", "append_part", places)
    if contested:
        decide_part(database, part, key)
    database.run("load", "touch_part")


def touch(database: Database, table: FeedTable, *, rows: str) -> None:
    """Note the units that incoming or decided rows of a table touch."""
    if table.touches == "vin":
        database.template("load", "touch", {"rows": rows, "time": places_of(table)["time"]})
    elif table.touches is not None and rows == "incoming":
        database.run("load", table.touches)


def places_of(table: FeedTable, told: tuple[str, ...] = ()) -> dict[str, str]:
    """Return what fills the places of the files that write a feed's table."""
    return {
        "table": quoted(table.name),
        "time": f"least({quoted_list(table.times)})" if table.times else "NULL",
        "first": quoted(table.key[0]),
        "key": quoted_list(table.key),
        "i_key": quoted_list(table.key, "i."),
        "t_key": quoted_list(table.key, "t."),
        "s_key": quoted_list(table.key, "s."),
        "c_key": quoted_list(table.key, "c."),
        "rows": "incoming",
        "i_told": quoted_list(told, "i."),
        "t_told": quoted_list(told, "t."),
    }
