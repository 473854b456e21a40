"""Ids for the runs of a file and for what came with them, made from what names a run (rule 1)."""

from __future__ import annotations

import polars as pl

from eol.store.database import Database
from eol.store.tables import PARTS


def with_run_ids(database: Database, tables: dict[str, pl.DataFrame]) -> dict[str, pl.DataFrame]:
    """Give the runs of a file, and the findings and readings of its rows, their `run_id`.

    Args:
        database: any database; nothing of it is read.
        tables: the tables of a file, as eol.feeds makes them.

    Returns:
        The tables; where there are runs, these and their findings and readings end in `run_id`.
    """
    if "run" not in tables:
        return tables
    runs = tables["run"]
    with database.lent("arriving", runs):
        ids = database.run("load", "run_ids")
    named = runs.hstack(ids)
    parts = {name: _of_runs(database, tables[name], named) for name in PARTS}
    return tables | parts | {"run": named}


def _of_runs(database: Database, rows: pl.DataFrame, runs: pl.DataFrame) -> pl.DataFrame:
    """Find each row's run: mostly the one of its own row, else by what names the run."""
    ids = runs.select("file_row", "run_id")
    own = rows.join(ids, on="file_row", how="left", maintain_order="left")
    if own["run_id"].null_count():
        with (
            database.lent("arriving", own.filter(pl.col("run_id").is_null()).drop("run_id")),
            database.lent("incoming_run", runs),
        ):
            found = database.run("load", "named_part")
        own = pl.concat([own.drop_nulls("run_id"), found.select(own.columns)])
    return own
