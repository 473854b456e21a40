"""Whether an ingest would find anything to do, told without touching the store.

A schedule asks each minute; an ingest publishes a whole copy of the store, also when nothing came.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

from eol.load.inbox import InboxFile, look_into_inbox
from eol.plant.folder import PlantFolder
from eol.plant.settings import Settings
from eol.store.connect import open_read_only, readable_copy
from eol.store.schema import has_these_views


def has_work(folder: PlantFolder, settings: Settings) -> bool:
    """Tell whether files wait in the inbox, plant.toml has changed, or the copy is older than the store.

    It is older where nothing was ever loaded, where a writer was killed before it published, and where
    another version of the tool made it.

    Raises:
        StoreError: the published copy cannot be read.
    """
    if not folder.read_copy.exists():
        return True
    published = folder.read_copy.stat().st_mtime
    log = folder.store.with_name(folder.store.name + ".wal")
    newer = (place for place in (folder.toml, folder.store, log) if place.exists())
    if any(place.stat().st_mtime > published for place in newer):
        return True
    fingerprint = hashlib.sha256(folder.toml.read_bytes()).hexdigest()
    with open_read_only(readable_copy(folder)) as copy:
        if not has_these_views(copy):
            return True
        seen = copy.run("load", "seen_files", settings=fingerprint)
    known = {
        InboxFile(Path(path), size, changed_at): taken
        for path, size, changed_at, taken in seen.iter_rows()
    }
    view = look_into_inbox(folder, settings, known)
    return bool(view.ready or view.left)
