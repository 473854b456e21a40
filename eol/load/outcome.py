"""What an ingest tells of its files, and of itself as a whole."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

TAKEN = frozenset({"loaded", "known"})
"""States of a file that the store has taken in."""

_SOUND = TAKEN | {"retried"}


@dataclass(frozen=True, slots=True)
class FileOutcome:
    """What became of one file.

    Attributes:
        state: `loaded`; `known` (the same bytes were taken in before); `retried` (rows of a file loaded
            before were tried again, the counts are of those rows); `refused` (nothing was loaded);
            `held` (nothing was loaded: a person must say whether a unit of measure has changed);
            `offline` (a watched folder that cannot be looked into).
        rejected: rows refused for good until the mapping or the file is mended.
        waiting: rows that wait for a unit key, no fault of theirs (rule 17).
        reasons: why rows were refused, with their number, the most frequent first.
        message: why it was refused, in three parts; empty otherwise.
        notes: what the lead or IT should know of it, a sentence each.
    """

    path: Path
    state: str
    feed: str = ""
    rows: int = 0
    accepted: int = 0
    repeated: int = 0
    amended: int = 0
    rejected: int = 0
    waiting: int = 0
    reasons: tuple[tuple[str, int], ...] = ()
    message: str = ""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class IngestResult:
    """What one ingest did.

    Attributes:
        files: what became of each file, in the order of loading.
        units: units stamped.
        doubles: runs of these files that are re-exports moved by an hour and do not count (rule 2).
        resting: files of the inbox that may still be written to.
    """

    files: tuple[FileOutcome, ...] = ()
    units: int = 0
    doubles: int = 0
    resting: int = 0

    @property
    def needs_a_look(self) -> bool:
        """True where rows or files were refused or held, a folder is offline, or runs look like doubles."""
        sound = all(not file.rejected and file.state in _SOUND for file in self.files)
        return not sound or self.doubles > 0
