"""What a statement reads: the views and tables behind it, found by their names."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from eol.errors import UsageError
from eol.fleet.layout import TABLES
from eol.sqlfiles import SqlFile, sql_files

_SOURCE = re.compile(r"\b(?:FROM|JOIN)\s+(\w+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Behind:
    """The tables and views behind a view or question, the views in the order of their numbers."""

    tables: tuple[str, ...]
    views: tuple[SqlFile, ...]


def fleet_file(name: str) -> SqlFile:
    """Return the file of a view, or of a question over many plants.

    Raises:
        UsageError: there is neither; the message lists what there is.
    """
    known = {file.name: file for file in (*sql_files("views"), *sql_files("fleet"))}
    if name not in known:
        raise UsageError(
            f"there is no view or question named '{name}'",
            hint="Views: "
            + ", ".join(file.name for file in sql_files("views"))
            + ". Questions over many plants: "
            + ", ".join(file.name for file in sql_files("fleet"))
            + ".",
        )
    return known[name]


@cache
def behind(file: SqlFile) -> Behind:
    """Return what a file reads, through all views behind it; a view is not behind itself."""
    views = {view.name: view for view in sql_files("views")}
    found: dict[str, SqlFile] = {}
    named = _sources(file)
    fresh = [views[name] for name in named & set(views) if name != file.name]
    while fresh:
        view = fresh.pop()
        if view.name not in found:
            found[view.name] = view
            named |= _sources(view)
            fresh += [views[name] for name in _sources(view) & set(views) if name != view.name]
    tables = tuple(table for table in TABLES if table in named)
    ordered = tuple(view for view in sql_files("views") if view.name in found and view != file)
    return Behind(tables, ordered)


def named_in(file: SqlFile) -> tuple[str, ...]:
    """Return the tables and views that a file names itself."""
    views = (view.name for view in sql_files("views") if view != file)
    return tuple(name for name in (*TABLES, *views) if name in _sources(file))


def _sources(file: SqlFile) -> set[str]:
    """The names that a file's statements select from, comments and the texts in quotes left out."""
    code = re.sub(r"--[^\n]*|'(?:[^']|'')*'", " ", "\n".join(file.plain_statements))
    return set(_SOURCE.findall(code))
