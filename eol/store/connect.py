"""Opens the store for writing, one writer at a time, and the published copy for reading.

Nobody but the tool opens `plant.duckdb`: readers get `read/plant.duckdb`, which is replaced whole.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import duckdb
from filelock import FileLock, Timeout

from eol.errors import StoreError
from eol.plant.folder import PlantFolder
from eol.store.database import Database
from eol.store.schema import has_these_views

# The default of DuckDB 2 cannot be opened by a 1.x client, which analysts are likely to have.
# Checkpoints come at the end alone: each one in between would write again what the stamps still change.
_FORMAT = {"storage_compatibility_version": "v1.4.0", "wal_autocheckpoint": "16MB"}
MEMORY_LIMIT = "8GB"

Config = dict[str, str | bool | int | float | list[str]]
# DuckDB sees Ctrl-C during a query before Python does, and tells it as an error of no class of its own.
_INTERRUPTED = "Query interrupted"


@contextmanager
def write_lock(folder: PlantFolder, *, wait_seconds: float = 60) -> Iterator[None]:
    """Hold the plant's write lock; it goes with the process, also when that is killed.

    Raises:
        StoreError: another process held it for the whole wait; the message names its pid. Or the lock cannot be
            made.
    """
    owner = folder.lock.with_suffix(".pid")
    lock = FileLock(folder.lock, timeout=wait_seconds)
    try:
        lock.acquire()
    except Timeout as error:
        pid = owner.read_text() if owner.exists() else "unknown"
        raise StoreError(
            f"the store has been in use by process {pid} for {wait_seconds:.0f} s",
            where=str(folder.store),
            hint="Wait for that process or end it, then run the command again; nothing was changed.",
        ) from error
    except OSError as error:
        raise StoreError(
            f"the store cannot be locked: {error.strerror}",
            where=str(folder.lock),
            hint="See that you may write to the plant folder, then run the command again; nothing was changed.",
        ) from error
    try:
        owner.write_text(str(os.getpid()))
        yield
    finally:
        lock.release()


@contextmanager
def open_store(folder: PlantFolder) -> Iterator[Database]:
    """Open the store for writing, inside `write_lock`; checkpoint and close it at the end.

    Raises:
        StoreError: the file is damaged, of a foreign version, held elsewhere or the disk is full.
    """
    with open_file(folder.store) as database:
        yield database


def take_in_log(folder: PlantFolder) -> None:
    """Bring what a killed writer left in the log beside the store into it, before the file is copied.

    The caller holds `write_lock`.

    Raises:
        StoreError: as `open_store`.
    """
    if folder.store.with_name(folder.store.name + ".wal").exists():
        with open_store(folder):
            pass


@contextmanager
def open_file(path: Path) -> Iterator[Database]:
    """Open any store file for writing, such as a copy to work on; checkpoint and close it at the end.

    Raises:
        StoreError: the file is damaged, of a foreign version, held elsewhere or the disk is full.
    """
    with told_as_store_error(path):
        database = Database(duckdb.connect(str(path), config=_config(path.parent)))
        try:
            yield database
            database.connection.execute("CHECKPOINT")
        finally:
            database.close()


@contextmanager
def open_copy(folder: PlantFolder) -> Iterator[Database]:
    """Open the published copy, read only.

    Raises:
        StoreError: nothing has been published yet, another version of the tool published it, or the copy
            cannot be read.
    """
    path = readable_copy(folder)
    with open_read_only(path) as database:
        if not has_these_views(database):
            raise StoreError(
                "the published copy was made by another version of eol",
                where=str(path),
                hint="Run eol publish, or load files: either makes it anew with the views of this version.",
            )
        yield database


def readable_copy(folder: PlantFolder) -> Path:
    """Return the newest published copy: `read/plant.duckdb`, or one beside it that could not take its place.

    Raises:
        StoreError: nothing has been published yet.
    """
    copies = [folder.read_copy, *folder.read_folder.glob(f"{folder.read_copy.stem}-*.duckdb")]
    there = [copy for copy in copies if copy.exists()]
    if not there:
        raise StoreError(
            "nothing has been loaded yet, so there is nothing to read",
            where=str(folder.read_copy),
            hint="Run eol ingest first.",
        )
    return max(there, key=lambda copy: copy.stat().st_mtime_ns)


@contextmanager
def open_read_only(path: Path) -> Iterator[Database]:
    """Open a store file read only.

    Raises:
        StoreError: the file cannot be read.
    """
    with told_as_store_error(path):
        database = Database(duckdb.connect(str(path), read_only=True, config=_threads()))
        try:
            yield database
        finally:
            database.close()


@contextmanager
def open_apart(config: Config) -> Iterator[Database]:
    """Open a database in memory with settings of its own, which other connections do not share.

    Raises:
        StoreError: a file that is attached to it cannot be read.
    """
    with told_as_store_error(Path(":memory:")):
        database = Database(duckdb.connect(":memory:", config={**_threads(), **config}))
        try:
            yield database
        finally:
            database.close()


def _config(folder: Path) -> Config:
    return {
        **_FORMAT,
        **_threads(),
        "memory_limit": MEMORY_LIMIT,
        "temp_directory": str(folder / ".spill"),
    }


def _threads() -> Config:
    """EOL_THREADS sets DuckDB's threads; else there are as many as cores."""
    threads = os.environ.get("EOL_THREADS", "")
    return {"threads": threads} if threads.isdigit() else {}


@contextmanager
def told_as_store_error(path: Path) -> Iterator[None]:
    """Turn DuckDB's own errors about files into a StoreError that says what to do, and its Ctrl-C into one."""
    try:
        yield
    except duckdb.InterruptException as error:
        raise KeyboardInterrupt from error
    except RuntimeError as error:
        if str(error) == _INTERRUPTED:
            raise KeyboardInterrupt from error
        raise
    except duckdb.OutOfMemoryException as error:
        raise StoreError(f"there is not enough memory or disk: {error}", where=str(path)) from error
    except (duckdb.IOException, duckdb.FatalException, duckdb.SerializationException) as error:
        raise StoreError(f"the store cannot be used: {error}", where=str(path)) from error
    except OSError as error:
        raise StoreError(f"the store cannot be used: {error.strerror}", where=str(path)) from error
