"""How files are understood, with the unit keys that the published copy knows; nothing is loaded."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import polars as pl

from eol.feeds.batch import Explanation
from eol.feeds.parse import explain
from eol.load.again import known_keys
from eol.plant.folder import PlantFolder
from eol.plant.settings import Settings, read_settings
from eol.store.connect import open_copy


def explain_files(folder: PlantFolder, files: Sequence[Path]) -> tuple[Explanation, ...]:
    """Say of each file how it would load: its feed, its mapping, first rows, what would be refused.

    Args:
        folder: the plant folder; before its first ingest no unit key is known.
        files: the files.

    Raises:
        PlantFileError: plant.toml is wrong.
        FeedFileError: a file as a whole cannot be used.
    """
    settings = read_settings(folder.toml)
    keys = _published_keys(folder, settings)
    return tuple(explain(path, settings, unit_keys=keys) for path in files)


def _published_keys(folder: PlantFolder, settings: Settings) -> pl.DataFrame | None:
    if not folder.read_copy.exists():
        return None
    with open_copy(folder) as copy:
        return known_keys(copy, settings)
