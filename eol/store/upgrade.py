"""Takes a store of an earlier schema version forward: on a copy that takes its place when it is whole."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

import duckdb

from eol.errors import StoreError
from eol.plant.folder import PlantFolder
from eol.store.connect import open_file, open_read_only, open_store, take_in_log
from eol.store.database import Database
from eol.store.schema import SCHEMA_VERSION, found_version, prepare_schema
from eol.store.stamp import stamp_units
from eol.store.whole_copy import copy_whole


@contextmanager
def open_upgraded(folder: PlantFolder) -> Iterator[Database]:
    """Open the store for writing with this tool's schema and views; the caller holds the write lock.

    Raises:
        StoreError: the store cannot be upgraded; it was left as it is.
    """
    with ExitStack() as opened:
        store = opened.enter_context(open_store(folder))
        if _is_older(found_version(store)):
            opened.close()
            upgrade(folder)
            store = opened.enter_context(open_store(folder))
        prepare_schema(store)
        yield store


def upgrade(folder: PlantFolder) -> Path | None:
    """Take an older store forward, on a copy first; the caller holds the write lock.

    Returns:
        The store as it was, kept as `plant.duckdb.v1`; None where there was nothing to do.

    Raises:
        StoreError: a step fails or loses rows, or there is no room; the store was left as it is.
    """
    found = _version(folder)
    if not _is_older(found):
        return None
    take_in_log(folder)
    beside = folder.store.with_name(f"{folder.store.name}.upgrade")
    try:
        copy_whole(folder.store, beside)
        _forward(beside, found)
        kept = folder.store.with_name(f"{folder.store.name}.v{found}")
        # Until the last of these two the old store stands under its own name.
        copy_whole(folder.store, kept)
        beside.replace(folder.store)
    except OSError as error:
        raise StoreError(
            f"the store cannot be upgraded: {error.strerror}",
            where=str(folder.store),
            hint="It was left as it is; make room for two more copies of it and run the command again.",
        ) from error
    finally:
        for left in (beside, beside.with_name(beside.name + ".wal")):
            left.unlink(missing_ok=True)
    _settle(folder.store)
    return kept


def _is_older(found: int) -> bool:
    return 0 < found < SCHEMA_VERSION


def _version(folder: PlantFolder) -> int:
    if not folder.store.exists():
        return 0
    with open_read_only(folder.store) as store:
        return found_version(store)


def _forward(copy: Path, found: int) -> None:
    """Take the copy forward, hold its rows against what they were, and stamp what a step touched."""
    with open_file(copy) as store:
        before = _rows(store)
        try:
            prepare_schema(store)
        except duckdb.Error as error:
            raise StoreError(
                f"the store cannot be upgraded from schema version {found}: {error}",
                where=str(copy.parent),
                hint="It was left as it is; run the tool of before and send this message.",
            ) from error
        after = _rows(store)
        with store.transaction():
            stamp_units(store)
    lost = sorted(name for name, rows in before.items() if after.get(name, 0) < rows)
    if lost:
        raise StoreError(
            f"the upgrade from schema version {found} would lose rows of {', '.join(lost)}",
            where=str(copy.parent),
            hint="The store was left as it is; run the tool of before and send this message.",
        )


def _rows(store: Database) -> dict[str, int]:
    return dict(store.run("store", "row_counts").iter_rows())


def _settle(store: Path) -> None:
    """Bring the new store to the disk before anything is written to it."""
    with store.open("rb") as file:
        os.fsync(file.fileno())
