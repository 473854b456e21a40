"""Takes rows back that are stored under a unit that their unit key names no longer (rule 17).

They leave the tables as if they had never come, and wait like rows whose key is unknown; the caller
tries them again. The caller holds the transaction.
"""

from __future__ import annotations

import polars as pl

from eol.store.database import Database, quoted
from eol.store.tables import FEED_TABLES, PARTS
from eol.store.write import decide_part, decide_runs, places_of, recount, refuse_rows

_REASON = "its unit key names another unit by now"


def touch_changed_keys(database: Database, known: pl.DataFrame) -> None:
    """Note the keys that differ from those which the files were read with.

    Args:
        database: the open store, in a transaction.
        known: kind, value, vin, valid_from and valid_to of the keys at the time of reading.
    """
    kinds = known["kind"].unique().to_list()
    with database.lent("known_key", known):
        database.run("load", "changed_keys", kinds=kinds)


def take_back(database: Database) -> int:
    """Let the rows wait again whose key names another unit than they were stored under.

    Returns:
        The number of rows.
    """
    rows = database.run("load", "taken_back")
    if rows.height:
        database.run("load", "rank_files")
        _leave_tables(database)
        for (file_id, feed), kept in rows.group_by("file_id", "feed", maintain_order=True):
            waiting = kept.select("file_row", pl.lit(_REASON).alias("reason"), "waits_for", "raw")
            tried = kept.select("file_row")
            refuse_rows(database, file_id, str(feed), tried=tried, rejected=waiting)
            recount(database, file_id, -kept.height)
    database.run("load", "forget_keyed")
    return rows.height


def _leave_tables(database: Database) -> None:
    """Delete the rows, and decide anew what they stood before (rule 1)."""
    for part in PARTS:
        places = _places_of_part(part) | {"waiting": quoted(f"waiting_{part}")}
        database.template("load", "take_back_part", places)
    database.run("load", "take_back_run")
    with database.lent("incoming_run", database.run("load", "no_run")):
        decide_runs(database)
    for part, key in PARTS.items():
        database.template("load", "no_part", {"part": quoted(part)})
        decide_part(database, part, key)
    for part, key in PARTS.items():
        database.template("load", "decided_part", _places_of_part(part))
        decide_part(database, part, key)
    for table in FEED_TABLES.values():
        if table.touches == "vin":
            places = places_of(table)
            database.template("load", "take_back", places)
            database.template("load", "decide", places)


def _places_of_part(part: str) -> dict[str, str]:
    return {"part": quoted(part), "decided": quoted(f"decided_{part}")}
