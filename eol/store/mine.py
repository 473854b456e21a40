"""The plant's own views: each `mine/NAME.sql` in the plant folder, one SELECT, becomes `mine.NAME` in the copy.

The files are what lasts: the copy is replaced at each load, and an upgrade changes it, so the views are made
anew each time. One that cannot be made is left out and told; it never stops a load.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from pathlib import Path

import duckdb

from eol.plant.folder import PlantFolder
from eol.store.connect import Config, open_apart
from eol.store.database import Database, literal, quoted

_NAME = re.compile(r"[a-z_][a-z0-9_]*")
_NO_COMMENT = "A view of the plant's own, without a word on what a row is."


@dataclass(frozen=True, slots=True)
class OwnView:
    """A view of the plant's own as its file has it; `fault` says why it cannot be made, empty where it can."""

    name: str
    path: Path
    query: str
    comment: str
    fault: str = ""


def own_views(folder: PlantFolder) -> tuple[OwnView, ...]:
    """Read the files of the plant's own views, in the order of their names."""
    return tuple(_read(path) for path in sorted((folder.root / "mine").glob("*.sql")))


def install(folder: PlantFolder, copy: Path) -> tuple[OwnView, ...]:
    """Make the plant's own views in a copy that nobody reads yet.

    Args:
        folder: the plant folder.
        copy: a copy of the store.

    Returns:
        The views that cannot be made, each with its fault.
    """
    waiting = [view for view in own_views(folder) if not view.fault]
    faulty = [view for view in own_views(folder) if view.fault]
    if not waiting:
        return tuple(faulty)
    config: Config = {"storage_compatibility_version": "v1.4.0"}
    with open_apart(config) as database:
        _attach(database, copy)
        # One may read another, whatever their order: go on for as long as any could be made.
        while waiting:
            tried = [_made(database, view) for view in waiting]
            left = [view for view in tried if view.fault]
            if len(left) == len(waiting):
                return (*faulty, *left)
            waiting = left
    return tuple(faulty)


def _attach(database: Database, copy: Path) -> None:
    places = {"path": literal(str(copy)), "name": quoted("plant")}
    database.template("mine", "attach", places)
    database.template("ask_session", "within", {"name": quoted("plant")})
    database.run("mine", "schema")
    # From here on no file can be read: a view of the copy reads the copy alone.
    database.connection.execute("SET enable_external_access = false")


def _made(database: Database, view: OwnView) -> OwnView:
    places = {"name": quoted(view.name), "comment": literal(view.comment), "query": view.query}
    try:
        with database.transaction():
            database.template("mine", "view", places)
    except duckdb.Error as error:
        return replace(view, fault=str(error))
    return replace(view, fault="")


def _read(path: Path) -> OwnView:
    try:
        text = path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        return OwnView(path.stem, path, "", "", fault=f"it cannot be read: {error}")
    comment = (
        text.strip().splitlines()[0].lstrip("- ").strip() if text.strip().startswith("--") else ""
    )
    return OwnView(path.stem, path, _query(text), comment or _NO_COMMENT, _fault(path.stem, text))


def _query(text: str) -> str:
    return text.strip().rstrip(";").strip()


def _fault(name: str, text: str) -> str:
    """Why a file is no view before it meets the copy: its name, or that it is not one SELECT."""
    if not _NAME.fullmatch(name):
        return f"'{name}' is no name of a view: small letters, digits and _ alone"
    with open_apart({}) as database:
        try:
            statements = database.connection.extract_statements(text)
        except duckdb.Error as error:
            return str(error)
    kinds = [str(statement.type).rsplit(".", 1)[-1] for statement in statements]
    return "" if kinds == ["SELECT"] else "it is not one SELECT"
