"""Stamps the touched units by the set-wise SQL of `queries/stamp/`, one counting rule a file."""

from __future__ import annotations

import polars as pl

from eol.sqlfiles import sql_files
from eol.store.arrived import arrived, no_runs
from eol.store.database import Database

_SCOPE, _TWIN = "scope", "twin"


def stamp_units(database: Database, runs: pl.DataFrame | None = None) -> int:
    """Stamp every unit noted in `touched_unit` and empty that list.

    The caller holds the transaction. The stamps of a unit depend on its own rows and on the
    declared tables alone, so stamping again changes nothing.

    Args:
        database: the open store.
        runs: runs that have come and are not stored yet; they are stored with their stamps.

    Returns:
        Number of units stamped.
    """
    with arrived(database, no_runs() if runs is None else runs):
        return _stamp(database)


def _stamp(database: Database) -> int:
    bounds = _scope(database)
    if not bounds["units"]:
        return 0
    # Twins of other units may become or cease to be doubles (rule 2): those units join the scope.
    if database.run("stamp", _TWIN, **bounds).item():
        bounds = _scope(database)
    for file in sql_files("stamp"):
        if file.name not in (_SCOPE, _TWIN):
            for statement in file.statements:
                database.execute(statement, bounds)
    return int(str(bounds["units"]))


def _scope(database: Database) -> dict[str, object]:
    """Note the units in scope; return since when anything is known of them."""
    database.run("stamp", _SCOPE)
    (bounds,) = database.run("load", "stamp_bounds").iter_rows(named=True)
    return bounds
