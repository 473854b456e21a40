"""Replaces the published copy `read/plant.duckdb` by a whole copy of the store, with the plant's own views.

A reader that holds the old copy goes on with the same figures; a new one sees the new copy, never a part of it.
Where a reader's hold keeps the old copy in its place, as on Windows, the new one stands beside it as
`read/plant-TIME.duckdb` until a later one can take its place.
"""

from __future__ import annotations

import os
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

from eol.errors import StoreError
from eol.plant.folder import PlantFolder
from eol.store.connect import write_lock
from eol.store.mine import OwnView, install
from eol.store.upgrade import open_upgraded
from eol.store.whole_copy import copy_whole

SMALL = 256 << 20
"""Bytes that are copied in about a quarter of a second."""


def publish(folder: PlantFolder) -> Path:
    """Copy the closed store and put the copy in the old one's place; the caller holds the write lock.

    Returns:
        The copy: `read/plant.duckdb`, or one beside it where that is held.

    Raises:
        StoreError: the copy cannot be written; the old one stays.
    """
    return _published(folder)[0]


def publish_small(folder: PlantFolder) -> None:
    """Publish where that costs next to nothing; the caller holds the write lock.

    The copy of a large store is older than the store until the next load, which publishes it, or the next
    turn of `eol run`, which finds it so.

    Raises:
        StoreError: the copy cannot be written; the old one stays.
    """
    if folder.store.stat().st_size <= SMALL:
        publish(folder)


def publish_again(folder: PlantFolder) -> tuple[Path, tuple[OwnView, ...]]:
    """Replace the published copy without a load, as after a change of the plant's own views or of the tool.

    A store of an earlier version is taken forward first.

    Returns:
        The copy, and the plant's own views that cannot be made.

    Raises:
        StoreError: there is no store yet, it is in use for too long, or the copy cannot be written.
    """
    if not folder.store.exists():
        raise StoreError(
            "there is nothing to publish", where=str(folder.store), hint="Run eol ingest first."
        )
    with write_lock(folder):
        with open_upgraded(folder):
            pass
        return _published(folder)


def _published(folder: PlantFolder) -> tuple[Path, tuple[OwnView, ...]]:
    fresh = folder.read_copy.with_suffix(f".{os.getpid()}.tmp")
    try:
        folder.read_folder.mkdir(exist_ok=True)
        # The caller holds the write lock, so what lies here was left by a killed publisher.
        for left in folder.read_folder.glob(f"{folder.read_copy.stem}.*.tmp*"):
            left.unlink()
        copy_whole(folder.store, fresh)
        faulty = install(folder, fresh)
        with fresh.open("rb") as file:
            os.fsync(file.fileno())
        return _put_in_place(folder, fresh), faulty
    except OSError as error:
        fresh.unlink(missing_ok=True)
        raise StoreError(
            f"the published copy could not be replaced: {error.strerror}",
            where=str(folder.read_copy),
            hint="The store holds the new rows; mend the cause and run eol ingest again to publish them.",
        ) from error


def _put_in_place(folder: PlantFolder, fresh: Path) -> Path:
    """Take the old copy's place, or stand beside it where a reader holds it."""
    try:
        fresh.replace(folder.read_copy)
    except PermissionError:
        beside = folder.read_copy.with_stem(
            f"{folder.read_copy.stem}-{datetime.now(UTC):%Y%m%dT%H%M%S%fZ}"
        )
        _forget(folder)
        return fresh.replace(beside)
    _forget(folder)
    return folder.read_copy


def _forget(folder: PlantFolder) -> None:
    """Take away copies that stood beside; one that a reader holds stays until next time."""
    for copy in folder.read_folder.glob(f"{folder.read_copy.stem}-*.duckdb"):
        with suppress(OSError):
            copy.unlink()
