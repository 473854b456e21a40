"""Files into the store: each file one transaction, the touched units stamped, the copy published.

Files are read, mapped and checked before the store is opened. A bad row never stops its file, a bad
file never stops the others and changes nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from eol.errors import FeedFileError
from eol.feeds.batch import FileBatch
from eol.feeds.parse import parse_file
from eol.load.inbox import put_away, ready_files
from eol.plant.folder import PlantFolder
from eol.plant.persons import pseudonym, read_pseudonym_key
from eol.plant.settings import Settings, read_settings
from eol.store.connect import open_store, write_lock
from eol.store.database import Database
from eol.store.declare import declare, fill_calendar, refresh_clauses
from eol.store.publish import publish
from eol.store.schema import prepare_schema
from eol.store.stamp import stamp_units
from eol.store.write import Fate, FileFacts, lower_made_at, write_file

_ROWS_AT_ONCE = 1_500_000

Progress = Callable[[Path, int, int], None]


@dataclass(frozen=True, slots=True)
class FileOutcome:
    """What became of one file.

    Attributes:
        state: `loaded`; `known` (the same bytes were taken in before); `refused` (nothing was loaded).
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
    """

    files: tuple[FileOutcome, ...] = ()
    units: int = 0
    doubles: int = 0

    @property
    def needs_a_look(self) -> bool:
        """True where rows or files were refused, or runs look like doubles."""
        refused = any(file.rejected or file.state == "refused" for file in self.files)
        return refused or self.doubles > 0


@dataclass(slots=True)
class _Load:
    """One ingest under way."""

    folder: PlantFolder
    settings: Settings
    now: datetime
    reason: str | None
    wait_seconds: float
    outcomes: list[FileOutcome] = field(default_factory=list)
    units: int = 0
    doubles: int = 0


def ingest(
    folder: PlantFolder,
    files: Sequence[Path] | None = None,
    *,
    reason: str | None = None,
    now: datetime | None = None,
    progress: Progress | None = None,
    wait_seconds: float = 60,
) -> IngestResult:
    """Load files into the store, stamp the units they touch and publish the copy.

    Args:
        folder: the plant folder.
        files: the files; the inbox's ready files where None. Files named here stay where they are.
        reason: why plant.toml may change the past (rule 4), None where it must not.
        now: the wall clock, UTC; times after it are refused.
        progress: told each file with its number and how many there are, as it is read.
        wait_seconds: how long to wait for another process that writes.

    Returns:
        What became of each file, in the order of loading.

    Raises:
        PlantFileError: plant.toml is wrong or would change the past.
        StoreError: the store cannot be used; files loaded before stay loaded.
    """
    load = _Load(folder, read_settings(folder.toml), now or datetime.now(UTC), reason, wait_seconds)
    paths = ready_files(folder, load.settings) if files is None else list(files)
    _open_for_work(load)
    for batches, last in _grouped(_parsed(load, paths, progress)):
        with write_lock(folder, wait_seconds=wait_seconds):
            with open_store(folder) as store:
                load.outcomes.extend(_write(store, batch, load) for batch in batches)
                if last:
                    load.units = _finish(store, load.settings)
                    load.doubles = _new_doubles(store, load.now)
            if last:
                publish(folder)
    if files is None:
        put_away(folder, load.settings, [o.path for o in load.outcomes if o.state != "refused"])
    return IngestResult(tuple(load.outcomes), load.units, load.doubles)


def _open_for_work(load: _Load) -> None:
    """Bring schema and declared tables up to date, before any file is read."""
    with (
        write_lock(load.folder, wait_seconds=load.wait_seconds),
        open_store(load.folder) as store,
    ):
        prepare_schema(store)
        with store.transaction():
            if declare(store, load.settings, reason=load.reason, now=load.now):
                store.run("load", "touch_all")


def _parsed(
    load: _Load, paths: Sequence[Path], progress: Progress | None
) -> Iterator[FileBatch]:
    """Read, map and check the files, one at a time; a refused one is noted and left out."""
    name = partial(pseudonym, read_pseudonym_key(load.folder.pseudonym_key))
    for number, path in enumerate(paths, start=1):
        if progress is not None:
            progress(path, number, len(paths))
        try:
            yield parse_file(path, load.settings, now=load.now, pseudonym=name)
        except FeedFileError as error:
            load.outcomes.append(FileOutcome(path, "refused", message=str(error)))


def _grouped(batches: Iterable[FileBatch]) -> Iterator[tuple[list[FileBatch], bool]]:
    """Gather files so that the store is opened once for many small ones and memory stays bounded.

    Yields:
        The files of a group, and whether it is the last one; that one may be empty.
    """
    group: list[FileBatch] = []
    for batch in batches:
        group.append(batch)
        if sum(b.rows for b in group) >= _ROWS_AT_ONCE:
            yield group, False
            group = []
    yield group, True


def _write(store: Database, batch: FileBatch, load: _Load) -> FileOutcome:
    """Bring one file into the store, in one transaction."""
    known = {sha: (file_id, at) for sha, file_id, at in store.query_rows("store", "known_files")}
    with store.transaction():
        if batch.sha256 in known:
            file_id, made_at = known[batch.sha256]
            if batch.made_at < made_at:
                lower_made_at(store, file_id, batch.made_at)
            return FileOutcome(batch.path, "known", batch.feed, batch.rows, repeated=batch.rows)
        fate = write_file(store, _facts(batch, load.now), batch.tables, batch.rejected)
        if "defect_code" in batch.tables:
            refresh_clauses(store)
    return _outcome(batch, fate)


def _outcome(batch: FileBatch, fate: Fate) -> FileOutcome:
    reasons = (
        batch.rejected.group_by("reason").len().sort("len", "reason", descending=[True, False])
    )
    rejected = batch.rejected.height
    return FileOutcome(
        batch.path,
        "loaded",
        batch.feed,
        batch.rows,
        accepted=max(batch.rows - rejected - fate.repeated - fate.amended, 0),
        repeated=fate.repeated,
        amended=fate.amended,
        rejected=rejected,
        reasons=tuple(reasons.iter_rows()),
        notes=batch.notes,
    )


def _facts(batch: FileBatch, now: datetime) -> FileFacts:
    return FileFacts(
        file_id=int(batch.sha256[:15], 16),
        feed=batch.feed,
        path=str(batch.path),
        sha256=batch.sha256,
        bytes=batch.size,
        made_at=batch.made_at,
        loaded_at=now,
        rows=batch.rows,
    )


def _finish(store: Database, settings: Settings) -> int:
    """Fill the calendar and stamp what the files touched; also what an interrupted ingest left."""
    with store.transaction():
        fill_calendar(store, settings)
        return stamp_units(store)


def _new_doubles(store: Database, now: datetime) -> int:
    """Count the suspect doubles among the runs of the files loaded at a moment."""
    return int(store.query_rows("load", "new_doubles", loaded_at=now)[0][0])
