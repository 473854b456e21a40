"""Stamps the touched units by the set-wise SQL of `queries/stamp/`, one counting rule a file."""

from __future__ import annotations

from eol.sqlfiles import sql_files
from eol.store.database import Database

_SCOPE = "scope"


def stamp_units(database: Database) -> int:
    """Stamp every unit noted in `touched_unit` and empty that list.

    The caller holds the transaction. The stamps of a unit depend on its own rows and on the
    declared tables alone, so stamping again changes nothing.

    Returns:
        Number of units stamped.
    """
    database.run("stamp", _SCOPE)
    (bounds,) = database.run("load", "stamp_bounds").iter_rows(named=True)
    if not bounds["units"]:
        return 0
    for file in sql_files("stamp"):
        if file.name != _SCOPE:
            for statement in file.statements:
                database.execute(statement, bounds)
    return int(bounds["units"])
