"""Files into the store: each file one transaction, the touched units stamped, the copy published.

Files are read, mapped and checked before the store is opened. A bad row never stops its file, a bad
file never stops the others and changes nothing.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

import polars as pl

from eol.errors import FeedFileError
from eol.feeds.batch import FileBatch
from eol.feeds.parse import parse_file
from eol.load.again import known_keys, retry_rows, row_parser
from eol.load.conditions import Usual, jumps, usual_conditions
from eol.load.inbox import InboxFile, InboxView, look_into_inbox, put_away
from eol.load.outcome import TAKEN, FileOutcome, IngestResult
from eol.load.settle import note_settled
from eol.plant.folder import PlantFolder
from eol.plant.persons import pseudonym, read_pseudonym_key
from eol.plant.settings import Settings, read_settings
from eol.store.connect import open_store, write_lock
from eol.store.database import Database
from eol.store.declare import declare, fill_calendar, refresh_clauses
from eol.store.publish import publish
from eol.store.schema import prepare_schema
from eol.store.stamp import stamp_units
from eol.store.take_back import take_back, touch_changed_keys
from eol.store.write import Fate, FileFacts, join_waiting, meet_again, write_file

__all__ = ["FileOutcome", "IngestResult", "ingest"]

_ROWS_AT_ONCE = 1_500_000
_HELD = "  Mend [feed.*.measure_units] in plant.toml, or load it as it is: eol ingest --accept FILE"

_SEEN_SCHEMA = {
    "path": pl.String(),
    "bytes": pl.Int64(),
    "changed_at": pl.Datetime("us", "UTC"),
    "state": pl.String(),
    "settings": pl.String(),
}

Progress = Callable[[Path, int, int], None]


@dataclass(slots=True)
class _Load:
    """One ingest under way."""

    folder: PlantFolder
    settings: Settings
    now: datetime
    reason: str | None
    accept: bool
    wait_seconds: float
    outcomes: list[FileOutcome] = field(default_factory=list)
    units: int = 0
    doubles: int = 0
    unit_keys: pl.DataFrame | None = None


def ingest(
    folder: PlantFolder,
    files: Sequence[Path] | None = None,
    *,
    reason: str | None = None,
    accept: bool = False,
    now: datetime | None = None,
    progress: Progress | None = None,
    wait_seconds: float = 60,
) -> IngestResult:
    """Load files into the store, stamp the units they touch and publish the copy.

    Args:
        folder: the plant folder.
        files: the files; the inbox's ready files where None. Files named here stay where they are.
        reason: why plant.toml may change the past (rule 4), None where it must not.
        accept: load files that would be held because a condition has jumped.
        now: the wall clock, UTC; times after it are refused.
        progress: told each file with its number and how many there are, as it is read.
        wait_seconds: how long to wait for another process that writes.

    Returns:
        What became of each file, in the order of loading.

    Raises:
        PlantFileError: plant.toml is wrong or would change the past.
        StoreError: the store cannot be used; files loaded before stay loaded.
    """
    moment = now or datetime.now(UTC)
    load = _Load(folder, read_settings(folder.toml), moment, reason, accept, wait_seconds)
    view = _open_for_work(load) if files is None else _open_for_work(load, look=False)
    load.outcomes += [FileOutcome(p, "offline", message=f"{p}: {why}") for p, why in view.offline]
    paths = [file.path for file in view.ready] if files is None else list(files)
    for batches, last in _grouped(_parsed(load, paths, progress)):
        with write_lock(folder, wait_seconds=wait_seconds):
            with open_store(folder) as store:
                usual = {} if accept else usual_conditions(store)
                load.outcomes.extend(_write(store, batch, load, usual) for batch in batches)
                if last:
                    _finish(store, load, view)
            if last:
                publish(folder)
    taken = {outcome.path for outcome in load.outcomes if outcome.state in TAKEN}
    put_away(folder, load.settings, [f for f in view.ready if f.path in taken] + [*view.left])
    return IngestResult(tuple(load.outcomes), load.units, load.doubles, view.resting)


def _open_for_work(load: _Load, *, look: bool = True) -> InboxView:
    """Bring schema and declared tables up to date before any file is read; look into the inbox."""
    with (
        write_lock(load.folder, wait_seconds=load.wait_seconds),
        open_store(load.folder) as store,
    ):
        prepare_schema(store)
        with store.transaction():
            if declare(store, load.settings, reason=load.reason, now=load.now):
                store.run("load", "touch_all")
        load.unit_keys = known_keys(store, load.settings)
        seen = store.query_rows("load", "seen_files", settings=_fingerprint(load.folder))
    if not look:
        return InboxView((), (), 0, ())
    known = {
        InboxFile(Path(path), size, changed_at): taken for path, size, changed_at, taken in seen
    }
    return look_into_inbox(load.folder, load.settings, known)


def _parsed(load: _Load, paths: Sequence[Path], progress: Progress | None) -> Iterator[FileBatch]:
    """Read, map and check the files, one at a time; a refused one is noted and left out."""
    name = partial(pseudonym, read_pseudonym_key(load.folder.pseudonym_key))
    for number, path in enumerate(paths, start=1):
        if progress is not None:
            progress(path, number, len(paths))
        try:
            yield parse_file(
                path, load.settings, now=load.now, pseudonym=name, unit_keys=load.unit_keys
            )
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


def _write(store: Database, batch: FileBatch, load: _Load, usual: Usual) -> FileOutcome:
    """Bring one file into the store, in one transaction."""
    if jumped := list(jumps(batch.tables, usual)):
        message = "\n".join([f"{batch.path}: {'; '.join(jumped)}", _HELD])
        return FileOutcome(batch.path, "held", batch.feed, batch.rows, message=message)
    known = {sha: (file_id, at) for sha, file_id, at in store.query_rows("store", "known_files")}
    with store.transaction():
        if batch.sha256 in known:
            file_id, known_at = known[batch.sha256]
            path = str(batch.path)
            meet_again(store, file_id, known_at=known_at, made_at=batch.made_at, path=path)
            return FileOutcome(batch.path, "known", batch.feed, batch.rows, repeated=batch.rows)
        fate = write_file(store, _facts(batch, load.now), batch.tables, batch.rejected, batch.keyed)
        if "defect_code" in batch.tables:
            refresh_clauses(store)
    return _outcome(batch, fate)


def _outcome(batch: FileBatch, fate: Fate) -> FileOutcome:
    left_out = batch.rejected.height + fate.repeated + fate.amended
    return FileOutcome(
        batch.path,
        "loaded",
        batch.feed,
        batch.rows,
        accepted=max(batch.rows - left_out, 0),
        repeated=fate.repeated,
        amended=fate.amended,
        rejected=batch.refused.height,
        waiting=batch.waiting.height,
        reasons=batch.reasons,
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


def _finish(store: Database, load: _Load, view: InboxView) -> None:
    """Fill the calendar and stamp what the files touched; also what an interrupted ingest left."""
    with store.transaction():
        named = _retry_waiting(store, load)
        join_waiting(store)
        fill_calendar(store, load.settings)
        load.units = stamp_units(store)
        note_settled(store)
        _note_seen(store, load, view)
    load.outcomes += named
    load.doubles = _new_doubles(store, load.now)


def _retry_waiting(store: Database, load: _Load) -> list[FileOutcome]:
    """Write the rows that waited for a unit key which has come, or names another unit by now (rule 17)."""
    if load.unit_keys is None:
        return []
    touch_changed_keys(store, load.unit_keys)
    take_back(store)
    if store.run("load", "named_rows").is_empty():
        return []
    parse = row_parser(store, load.folder, load.settings, now=load.now)
    return retry_rows(store, parse, waiting_only=True)


def _note_seen(store: Database, load: _Load, view: InboxView) -> None:
    """Note what became of the inbox's files, so that an unchanged one is not read again."""
    states = {outcome.path: outcome.state for outcome in load.outcomes}
    settings = _fingerprint(load.folder)
    rows = [
        (str(file.path), file.bytes, file.changed_at, states[file.path], settings)
        for file in view.ready
        if file.path in states
    ]
    if not rows:
        return
    with store.lent("arriving", pl.DataFrame(rows, schema=_SEEN_SCHEMA, orient="row")):
        store.run("load", "note_seen")


def _fingerprint(folder: PlantFolder) -> str:
    return hashlib.sha256(folder.toml.read_bytes()).hexdigest()


def _new_doubles(store: Database, now: datetime) -> int:
    """Count the suspect doubles among the runs of the files loaded at a moment."""
    return int(store.query_rows("load", "new_doubles", loaded_at=now)[0][0])
