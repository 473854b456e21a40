"""Writes files whose rows nothing contests, all of a group at once; what is contested goes file by file.

Nearly every file of a plant tells only what is new. Its runs are not stored before they are stamped: they
are lent to SQL as `arrived_run`, and the stamps bring them in. The tables are those that file by file gives.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass

import polars as pl

from eol.store.arrived import RUN_SCHEMA, UNIT_SCHEMA, Arrived
from eol.store.database import Database, quoted
from eol.store.tables import FEED_TABLES, PARTS, FeedTable
from eol.store.write import (
    Fate,
    FileFacts,
    contested_keys,
    let_wait,
    note_keyed,
    of_file,
    places_of,
    refuse,
    touch,
    write_keyed,
    write_runs,
)

_COUNTS = ("file_id", "accepted", "repeated", "amended", "rejected")
_OF_RUN = ("vin", "test", "station", "started_at", "run_ref")


@dataclass(frozen=True, slots=True)
class Arrival:
    """A file that the store does not hold: its facts and its rows, as `write_file` takes them."""

    file: FileFacts
    tables: dict[str, pl.DataFrame]
    rejected: pl.DataFrame
    keyed: pl.DataFrame

    @property
    def file_id(self) -> int:
        """The file's id."""
        return self.file.file_id


@dataclass(frozen=True, slots=True)
class Written:
    """The fate of each file's rows, in their order, and what the stamps have to bring in."""

    fates: tuple[Fate, ...]
    arrived: Arrived


def write_files(database: Database, arrivals: Sequence[Arrival]) -> Written:
    """Write files that the store does not hold and that differ; the caller holds the transaction."""
    if arrivals:
        _note_files(database, arrivals)
    fates = {one.file_id: Fate() for one in arrivals}
    runs = _write_runs(database, arrivals, fates)
    seen = [Arrived().units]
    for name, table in FEED_TABLES.items():
        sent = [one for one in arrivals if name in one.tables]
        seen.append(_write_keyed(database, table, sent, fates))
    for one in arrivals:
        for name in PARTS:
            if name in one.tables and "run" not in one.tables:
                let_wait(database, name, one.file_id, one.tables[name])
        refuse(database, one.file_id, one.file.feed, one.rejected)
        note_keyed(database, one.file_id, one.file.feed, one.keyed)
    if arrivals:
        _note_counts(database, arrivals, fates)
    return Written(tuple(fates.values()), Arrived(runs, pl.concat(seen, rechunk=True)))


def _note_files(database: Database, arrivals: Sequence[Arrival]) -> None:
    """Note the files, and rank them among all (rule 1)."""
    with database.lent("arriving", pl.DataFrame([asdict(one.file) for one in arrivals])):
        database.run("load", "note_files")
    database.run("load", "rank_files")


def _note_counts(database: Database, arrivals: Sequence[Arrival], fates: dict[int, Fate]) -> None:
    """Note what became of the rows of each file."""
    rows = []
    for one in arrivals:
        fate, rejected = fates[one.file_id], one.rejected.height
        left = one.file.rows - rejected - fate.repeated - fate.amended
        rows.append((one.file_id, max(left, 0), fate.repeated, fate.amended, rejected))
    with database.lent("arriving", pl.DataFrame(rows, schema=_COUNTS, orient="row")):
        database.run("load", "note_counts")


def _seen(rows: pl.DataFrame, times: Sequence[str]) -> pl.DataFrame:
    """The units that rows tell of, each row with its earliest time; null where it has none."""
    earliest = pl.min_horizontal(times) if times else pl.lit(None)
    frame = rows.select("vin", earliest.cast(UNIT_SCHEMA["earliest_at"]).alias("earliest_at"))
    return frame.drop_nulls("vin")


def _write_runs(
    database: Database, arrivals: Sequence[Arrival], fates: dict[int, Fate]
) -> pl.DataFrame:
    """Return the runs that nothing contests, their parts written; contested ones are written at once."""
    sent = [one for one in arrivals if "run" in one.tables]
    if not sent:
        return Arrived().runs
    told = (of_file(one.file_id, one.tables["run"]).select(*RUN_SCHEMA) for one in sent)
    runs = pl.concat(told, rechunk=True)
    with database.lent("incoming_run", runs):
        if not database.run("load", "contested_run").item() and _named_once(runs):
            for part in PARTS:
                _write_parts(database, part, sent)
            for one in sent:
                fates[one.file_id] += Fate(one.tables["run"].height)
            return runs
    for one in sent:
        fates[one.file_id] += write_runs(database, one.file_id, one.tables)
    return Arrived().runs


def _named_once(runs: pl.DataFrame) -> bool:
    """Tell whether no two rows name one run, by the bench's own name or else by the id."""
    by_bench = pl.col("run_ref").is_not_null()
    named = runs.filter(by_bench).select(pl.struct("station", "run_ref"))
    ids = runs.filter(~by_bench)["run_id"]
    return ids.n_unique() == ids.len() and not named.is_duplicated().any()


def _write_parts(database: Database, part: str, sent: Sequence[Arrival]) -> None:
    """Append the findings or readings that came with these runs."""
    told = [of_file(one.file_id, one.tables[part]) for one in sent if one.tables[part].height]
    if told:
        rows = pl.concat(told, how="diagonal_relaxed").drop(_OF_RUN)
        with database.lent("arriving", rows):
            database.template("load", "append", {"table": quoted(part), "rows": "arriving"})


def _write_keyed(
    database: Database, table: FeedTable, sent: Sequence[Arrival], fates: dict[int, Fate]
) -> pl.DataFrame:
    """Append the rows of a table that nothing contests; where one is contested, go file by file.

    Returns:
        The units touched that are not noted yet.
    """
    told = [(one.file_id, one.tables[table.name]) for one in sent if one.tables[table.name].height]
    if not told:
        return Arrived().units
    rows = pl.concat([of_file(*one) for one in told], how="diagonal_relaxed")
    with database.lent("arriving", rows):
        if _appended(database, table, rows):
            for file_id, frame in told:
                fates[file_id] += Fate(frame.height)
            return _seen(rows, table.times) if table.touches == "vin" else Arrived().units
    for file_id, frame in told:
        fates[file_id] += write_keyed(database, table, file_id, frame)
    return Arrived().units


def _appended(database: Database, table: FeedTable, rows: pl.DataFrame) -> bool:
    """Append the rows of `arriving` and tell that it was done, or tell that one is contested."""
    source, named = "arriving", rows
    if table.incoming != "incoming" or table.touches not in ("vin", None):
        source = "incoming"
        database.template("load", table.incoming, places_of(table))
        named = database.template("load", "incoming_keys", places_of(table))
    # A key of several rows, or rarely two that share a hash: they are looked at file by file.
    if named.select(pl.struct(table.key).hash().n_unique()).item() < named.height:
        return False
    if any(contested_keys(database, table, rows, rows=source)):
        return False
    database.template("load", "append", places_of(table) | {"rows": source})
    if table.touches != "vin":
        touch(database, table, rows="incoming")
    return True
