"""A checked copy of what a plant cannot do without: the store, plant.toml and the key for pseudonyms."""

from __future__ import annotations

import hashlib
import json
import shutil
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from eol.errors import StoreError
from eol.plant.folder import PlantFolder
from eol.store.connect import open_read_only, take_in_log, write_lock

_CHUNK = 1 << 20
NOTE = "backup.json"
"""The note of the last backup, in the plant folder."""


@dataclass(frozen=True, slots=True)
class Backup:
    """A copy that was read back: where it lies, its size in bytes, its sha256 and its rows by table."""

    place: Path
    bytes: int
    sha256: str
    rows: dict[str, int]


def backup(folder: PlantFolder, target: Path, *, now: datetime | None = None) -> Backup:
    """Copy the plant into a new folder below a target and check the copy.

    The copy is a plant folder itself: to restore, stop what writes, put its files in the place of
    the plant's, and run `eol ingest`, which publishes it; files that came since are loaded again.

    Args:
        folder: the plant folder.
        target: where copies are kept; the new folder's name tells the time.
        now: the wall clock, UTC.

    Raises:
        StoreError: the store is in use for too long, or the copy cannot be written or read back.
    """
    moment = now or datetime.now(UTC)
    place = target / f"{folder.root.name}-{moment:%Y%m%dT%H%M%SZ}"
    try:
        place.mkdir(parents=True)
        with write_lock(folder):
            take_in_log(folder)
            shutil.copyfile(folder.store, place / folder.store.name)
            shutil.copyfile(folder.toml, place / folder.toml.name)
            shutil.copy(folder.pseudonym_key, place / folder.pseudonym_key.name)
            wanted = _sha256(folder.store)
    except OSError as error:
        raise StoreError(
            f"the copy cannot be written: {error.strerror}",
            where=str(place),
            hint="Name a folder with room that you may write to; the plant was left as it is.",
        ) from error
    copy = _checked(place / folder.store.name, wanted)
    _note(folder, copy, moment)
    return copy


def noted_backup(folder: PlantFolder) -> datetime | None:
    """Return when the last checked backup of a plant was made, UTC; None where no note of one is left."""
    try:
        noted = json.loads((folder.root / NOTE).read_text(encoding="utf-8"))
        return datetime.fromisoformat(noted["made_at"])
    except (OSError, ValueError, KeyError, TypeError):
        return None


def _note(folder: PlantFolder, copy: Backup, moment: datetime) -> None:
    """Leave a note for `eol status`; a plant that cannot take it has a backup all the same."""
    note = {"made_at": moment.isoformat(), "place": str(copy.place), "sha256": copy.sha256}
    with suppress(OSError):
        (folder.root / NOTE).write_text(json.dumps(note) + "\n", encoding="utf-8")


def _checked(copy: Path, wanted: str) -> Backup:
    if _sha256(copy) != wanted:
        raise StoreError(
            "the copy differs from the store", where=str(copy), hint="Copy to another disk."
        )
    with open_read_only(copy) as database:
        counted = database.run("store", "row_counts")
    return Backup(copy.parent, copy.stat().st_size, wanted, dict(counted.iter_rows()))


def _sha256(path: Path) -> str:
    digest = hashlib.sha256()
    with path.open("rb") as file:
        while chunk := file.read(_CHUNK):
            digest.update(chunk)
    return digest.hexdigest()
