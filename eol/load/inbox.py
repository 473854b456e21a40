"""The inbox: which of its files are ready to be taken, and where they go afterwards."""

from __future__ import annotations

import shutil
import time
from collections.abc import Iterable
from pathlib import Path

from eol.plant.folder import PlantFolder
from eol.plant.settings import Settings

_DONE = ".done"


def ready_files(folder: PlantFolder, settings: Settings) -> list[Path]:
    """Return the inbox's files that have rested or have their `.done` beside them, sorted by name.

    Hidden files, `~$` files of office programs and the folder of taken files are passed over.
    """
    now = time.time()
    return [
        path
        for path in sorted(folder.inbox.rglob("*"))
        if _is_data(path, folder) and _has_rested(path, settings.inbox.settle_seconds, now)
    ]


def put_away(folder: PlantFolder, settings: Settings, paths: Iterable[Path]) -> None:
    """Move taken files to `inbox/taken/`, where the plant does not want them left."""
    if settings.inbox.taken == "leave":
        return
    for path in paths:
        target = _free_name(folder.taken / path.relative_to(folder.inbox))
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.move(path, target)
        path.with_name(path.name + _DONE).unlink(missing_ok=True)


def _is_data(path: Path, folder: PlantFolder) -> bool:
    inside = path.relative_to(folder.inbox).parts
    hidden = any(part.startswith((".", "~$")) for part in inside)
    return (
        path.is_file() and not hidden and folder.taken not in path.parents and path.suffix != _DONE
    )


def _has_rested(path: Path, settle_seconds: float, now: float) -> bool:
    return (
        path.with_name(path.name + _DONE).exists() or now - path.stat().st_mtime >= settle_seconds
    )


def _free_name(target: Path) -> Path:
    """The target, or the first of its numbered names that is free."""
    number, free = 1, target
    while free.exists():
        number += 1
        free = target.with_name(f"{target.stem}-{number}{target.suffix}")
    return free
