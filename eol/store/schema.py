"""Creates the schema in an empty store and takes an older one forward, step by step, never back."""

from __future__ import annotations

import hashlib
from datetime import UTC, datetime
from functools import cache
from importlib.metadata import PackageNotFoundError, version

from eol.errors import StoreError
from eol.sqlfiles import sql_files
from eol.store.database import Database

SCHEMA_VERSION = 4
"""Number of the schema that this tool writes; each later one has a file in `queries/migrations/`."""


def prepare_schema(database: Database) -> None:
    """Bring the store to `SCHEMA_VERSION`, and its views to this tool's.

    Raises:
        StoreError: the store was written by a newer tool.
    """
    found = found_version(database)
    if found > SCHEMA_VERSION:
        raise StoreError(
            f"the store has schema version {found}, this tool knows up to {SCHEMA_VERSION}",
            hint="Install the newer version of the tool again; the store was left as it is.",
        )
    if found < SCHEMA_VERSION:
        with database.transaction():
            _step_forward(database, found)
    install_views(database)


def found_version(database: Database) -> int:
    """Return the store's schema version, 0 for an empty store."""
    if not database.has_relation("schema_version"):
        return 0
    return int(database.query_rows("store", "schema_version")[0][0] or 0)


def install_views(database: Database) -> None:
    """Create the views anew where the text of one changed; their comments go with them."""
    if has_these_views(database):
        return
    with database.transaction():
        database.run_all("views")
        database.run("store", "note_views", views=_fingerprint())


def has_these_views(database: Database) -> bool:
    """Tell whether the views are this tool's, letter by letter; the database has a schema."""
    return bool(database.query_rows("store", "views_installed")[0][0] == _fingerprint())


@cache
def _fingerprint() -> str:
    text = "".join(file.text for file in sql_files("views"))
    return hashlib.sha256(text.encode()).hexdigest()


def _step_forward(database: Database, found: int) -> None:
    if found == 0:
        database.run_all("schema")
    else:
        for number, file in enumerate(sql_files("migrations"), start=2):
            if number > found:
                for statement in file.statements:
                    database.execute(statement, {})
    database.run(
        "store",
        "note_schema_version",
        version=SCHEMA_VERSION,
        made_at=datetime.now(UTC),
        tool=tool_version(),
    )


def tool_version() -> str:
    """Return the version of the installed tool, `unknown` in a bare checkout."""
    try:
        return version("eol-pareto")
    except PackageNotFoundError:
        return "unknown"
