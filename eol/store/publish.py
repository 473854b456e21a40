"""Replaces the published copy `read/plant.duckdb` by a whole copy of the store.

A reader that holds the old copy goes on with the same figures; a new one sees the new copy, never a part of it.
"""

from __future__ import annotations

import os
import shutil
from pathlib import Path

from eol.errors import StoreError
from eol.plant.folder import PlantFolder


def publish(folder: PlantFolder) -> Path:
    """Copy the closed store and put the copy in the old one's place.

    Raises:
        StoreError: the copy cannot be written; the old one stays.
    """
    folder.read_folder.mkdir(exist_ok=True)
    fresh = folder.read_copy.with_suffix(f".{os.getpid()}.tmp")
    try:
        # The caller holds the write lock, so what lies here was left by a killed publisher.
        for left in folder.read_folder.glob(f"{folder.read_copy.stem}.*.tmp"):
            left.unlink()
        shutil.copyfile(folder.store, fresh)
        with fresh.open("rb") as file:
            os.fsync(file.fileno())
        fresh.replace(folder.read_copy)
    except OSError as error:
        fresh.unlink(missing_ok=True)
        raise StoreError(
            f"the published copy could not be replaced: {error.strerror}",
            where=str(folder.read_copy),
            hint="The store holds the new rows; mend the cause and run eol ingest again to publish them.",
        ) from error
    return folder.read_copy
