"""Other data beside the copy, read only: a DuckDB file, or Parquet and CSV, under a name of its own."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import duckdb

from eol.errors import UsageError
from eol.store.database import Database, literal, quoted

PARQUET = (".parquet", ".pq")
CSV = (".csv", ".tsv", ".txt", ".csv.gz", ".tsv.gz", ".csv.zst")
DATABASES = (".duckdb", ".db", ".ddb")

_NAME = re.compile(r"[a-z_][a-z0-9_]*", re.IGNORECASE)
_TAKEN = {"main", "memory", "mine", "plant", "superseded", "system", "temp", "information_schema"}
_HINT = "Such as --attach body=/data/body, then FROM body.gaps; --attach claims=claims.csv, then FROM claims."


@dataclass(frozen=True, slots=True)
class FileTable:
    """A table made of files: its name and the files, of one kind."""

    name: str
    files: tuple[Path, ...]


def parse_attached(texts: Iterable[str]) -> dict[str, Path]:
    """Return the paths of `NAME=PATH` texts by their names.

    Raises:
        UsageError: a text has not this form, or a name comes twice.
    """
    attached: dict[str, Path] = {}
    for text in texts:
        name, sign, path = text.partition("=")
        if not (name and sign and path) or name in attached:
            raise UsageError(f"'{text}' is not NAME=PATH with a name of its own", hint=_HINT)
        attached[name] = Path(path)
    return attached


def attach(database: Database, attached: Mapping[str, Path]) -> list[str]:
    """Attach files and folders to a session that is not locked yet.

    Args:
        database: the session, in which the copy is attached already.
        attached: paths by name. A DuckDB file and a folder become `NAME.table`, a single file of
            rows becomes `NAME`. In a folder each file, and each folder of files of one kind, is a table.

    Returns:
        The files that the views read, which the lock must leave open.

    Raises:
        UsageError: a name is taken or none, or a path cannot be read.
    """
    taken = _TAKEN | {row[2] for row in database.query_rows("ask_session", "relations")}
    files: list[str] = []
    for name, path in attached.items():
        if not _NAME.fullmatch(name) or name.lower() in taken:
            raise UsageError(f"'{name}' cannot be the name of what is attached", hint=_HINT)
        try:
            files += _attach_one(database, name, path.expanduser().absolute())
        except duckdb.Error as error:
            raise UsageError(f"it cannot be attached: {error}", where=str(path)) from error
    return files


def _attach_one(database: Database, name: str, path: Path) -> list[str]:
    if not path.exists():
        raise UsageError("there is no such file or folder", where=str(path), hint=_HINT)
    if path.is_dir():
        database.template("ask_session", "attach_empty", {"name": quoted(name)})
        database.template("ask_session", "within", {"name": quoted(name)})
        tables = list(folder_tables(path))
        if not tables:
            raise UsageError("there is no Parquet or CSV file in it", where=str(path), hint=_HINT)
        return [file for table in tables for file in _view(database, table)]
    if path.name.lower().endswith(DATABASES):
        places = {"path": literal(str(path)), "name": quoted(name)}
        database.template("ask_session", "attach", places)
        return []
    database.template("ask_session", "within", {"name": quoted("memory")})
    return _view(database, FileTable(name, (path,)))


def folder_tables(folder: Path) -> Iterator[FileTable]:
    """Give the tables of a folder: each file of rows, and each folder below it with files of one kind."""
    for path in sorted(folder.iterdir()):
        if path.name.startswith((".", "_")):
            continue
        if path.is_dir():
            below = sorted(file for file in path.rglob("*") if _of_rows(file))
            first = [file for file in below if _suffix(file) == _suffix(below[0])]
            if first:
                yield FileTable(path.name, tuple(first))
        elif _of_rows(path):
            yield FileTable(path.name.split(".")[0], (path,))


def _of_rows(path: Path) -> bool:
    return path.is_file() and not path.name.startswith((".", "_")) and bool(_suffix(path))


def _suffix(path: Path) -> str:
    name = path.name.lower()
    return "parquet" if name.endswith(PARQUET) else "csv" if name.endswith(CSV) else ""


def _view(database: Database, table: FileTable) -> list[str]:
    files = [str(file) for file in table.files]
    kind = _suffix(table.files[0])
    if not kind:
        raise UsageError(
            "it is neither a DuckDB, a Parquet nor a CSV file", where=files[0], hint=_HINT
        )
    connection = database.connection
    rows = (
        connection.read_parquet(files, union_by_name=True)
        if kind == "parquet"
        else connection.read_csv(files, union_by_name=True)
    )
    rows.create_view(table.name, replace=False)
    return files
