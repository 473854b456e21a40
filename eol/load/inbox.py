"""The inbox and the shares beside it: which files are ready to be taken, and where they go afterwards.

A file is ready when its size and time have rested, or when its `.done` stands beside it. What was
looked at before and has not changed since is not read again.
"""

from __future__ import annotations

import os
import shutil
import time
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from eol.plant.folder import PlantFolder
from eol.plant.settings import Settings

_DONE = ".done"


@dataclass(frozen=True, slots=True)
class InboxFile:
    """A file as it was found: where, its size in bytes and its last change, UTC."""

    path: Path
    bytes: int
    changed_at: datetime

    def has_changed(self) -> bool:
        """Tell whether the file has grown, changed or gone since it was found."""
        try:
            return _found(self.path) != self
        except OSError:
            return True


@dataclass(frozen=True, slots=True)
class InboxView:
    """What lies in the inbox.

    Attributes:
        ready: files to be taken, sorted by path.
        left: files that were taken before and lie here still, as after a kill or a restored backup.
        resting: number of files that may still be written to.
        offline: folders that cannot be looked into, with the reason.
    """

    ready: tuple[InboxFile, ...]
    left: tuple[InboxFile, ...]
    resting: int
    offline: tuple[tuple[Path, str], ...]


def look_into_inbox(
    folder: PlantFolder, settings: Settings, seen: Mapping[InboxFile, bool]
) -> InboxView:
    """Look into the inbox and the folders of `[inbox] folders`.

    Args:
        folder: the plant folder.
        settings: plant.toml.
        seen: files that were looked at before, as they were then, and whether they were taken;
            they are not read again.
    """
    offline: list[tuple[Path, str]] = []
    files: list[InboxFile] = []
    for place in (folder.inbox, *watched_folders(folder, settings)):
        try:
            files += _files_below(place, folder)
        except OSError as error:
            offline.append((place, error.strerror or str(error)))
    fresh = [file for file in files if file not in seen]
    now = time.time()
    ready = [file for file in fresh if _has_rested(file, settings.inbox.settle_seconds, now)]
    return InboxView(
        ready=tuple(sorted(ready, key=lambda file: file.path)),
        left=tuple(file for file in files if seen.get(file)),
        resting=len(fresh) - len(ready),
        offline=tuple(offline),
    )


def watched_folders(folder: PlantFolder, settings: Settings) -> tuple[Path, ...]:
    """Return the shares that the plant watches beside its inbox; relative ones lie in the plant folder."""
    return tuple(folder.root / Path(name).expanduser() for name in settings.inbox.folders)


def put_away(folder: PlantFolder, settings: Settings, files: Iterable[InboxFile]) -> None:
    """Move taken files to `inbox/taken/`, where the plant does not want them left.

    A file that has grown since it was read stays, to be taken again.
    """
    if settings.inbox.taken == "leave":
        return
    places = {folder.inbox: Path(), **{p: Path(p.name) for p in watched_folders(folder, settings)}}
    for file in files:
        home = next((place for place in places if place in file.path.parents), None)
        if home is None or file.has_changed():
            continue
        target = _free_name(folder.taken / places[home] / file.path.relative_to(home))
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.move(file.path, target)
        file.path.with_name(file.path.name + _DONE).unlink(missing_ok=True)


def _files_below(place: Path, folder: PlantFolder) -> Iterator[InboxFile]:
    """The data files below a folder; links are followed, hidden and office lock files passed over.

    Raises:
        OSError: a folder cannot be read, as a share that is offline.
    """
    for root, folders, names in os.walk(place, onerror=_raise, followlinks=True):
        here = Path(root)
        folders[:] = [n for n in folders if not n.startswith(".") and here / n != folder.taken]
        for name in names:
            if not name.startswith((".", "~$")) and not name.endswith(_DONE):
                yield _found(here / name)


def _raise(error: OSError) -> None:
    raise error


def _found(path: Path) -> InboxFile:
    stat = path.stat()
    # Whole microseconds, as the store keeps them.
    changed_at = datetime.fromtimestamp(stat.st_mtime_ns // 1000 / 1e6, UTC)
    return InboxFile(path, stat.st_size, changed_at)


def _has_rested(file: InboxFile, settle_seconds: float, now: float) -> bool:
    done = file.path.with_name(file.path.name + _DONE).exists()
    return done or now - file.changed_at.timestamp() >= settle_seconds


def _free_name(target: Path) -> Path:
    """The target, or the first of its numbered names that is free."""
    number, free = 1, target
    while free.exists():
        number += 1
        free = target.with_name(f"{target.stem}-{number}{target.suffix}")
    return free
