"""Stamps the touched units by the set-wise SQL of `queries/stamp/`, one counting rule a file."""

from __future__ import annotations

from eol.sqlfiles import sql_files
from eol.store.arrived import Arrived, lent
from eol.store.database import Database

_DUE, _SCOPE, _RUNS, _TWIN = "due_unit", "scope", "work_run", "twin"


def stamp_units(database: Database, arrived: Arrived | None = None) -> int:
    """Stamp every unit noted in `touched_unit` and empty that list.

    The caller holds the transaction. The stamps of a unit depend on its own rows and on the
    declared tables alone, so stamping again changes nothing.

    Args:
        database: the open store.
        arrived: what has come without a rival; its runs are stored with their stamps.

    Returns:
        Number of units stamped.
    """
    with lent(database, arrived or Arrived()):
        return _stamp(database)


def stamps_due(database: Database) -> bool:
    """Tell whether units wait for their stamps: then the load under way publishes the store, nobody else."""
    return bool(database.query_rows("load", "stamps_due")[0][0])


def _stamp(database: Database) -> int:
    bounds = _scope(database)
    if not bounds["units"]:
        return 0
    # Twins of other units may become or cease to be doubles (rule 2): these and their runs join the scope.
    while _doubles_move(database, bounds):
        bounds = _scope(database)
    for file in sql_files("stamp"):
        if file.name not in (_DUE, _SCOPE, _RUNS, _TWIN):
            for statement in file.statements:
                database.execute(statement, bounds)
    return int(str(bounds["units"]))


def _scope(database: Database) -> dict[str, object]:
    """Note the units in scope; return since when anything is known of them."""
    since = database.run("stamp", _DUE).item()
    database.run("stamp", _SCOPE, since=since)
    (bounds,) = database.run("load", "stamp_bounds").iter_rows(named=True)
    return bounds


def _doubles_move(database: Database, bounds: dict[str, object]) -> bool:
    """Work out the runs of the units in scope and their twins; tell whether doubles of others come or go."""
    database.run("stamp", _RUNS, **bounds)
    return bool(database.run("stamp", _TWIN, **bounds).item())
