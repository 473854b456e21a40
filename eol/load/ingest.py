"""Files into the store: group by group, each one transaction with its stamps, then the copy published.

Files are read, mapped and checked apart from the store, also while it is opened and written. A bad row never
stops its file, a bad file never stops the others and changes nothing.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from threading import Lock

import polars as pl

from eol.feeds.batch import FileBatch
from eol.feeds.parse import parse_file
from eol.load.again import key_kinds, known_keys, retry_rows, row_parser
from eol.load.ahead import Progress, ReadAhead, grouped, in_time_order
from eol.load.conditions import Usual, jumps, usual_conditions
from eol.load.inbox import InboxFile, InboxView, look_into_inbox, put_away
from eol.load.outcome import TAKEN, FileOutcome, IngestResult
from eol.load.settle import note_settled
from eol.plant.folder import PlantFolder
from eol.plant.persons import pseudonym, read_pseudonym_key
from eol.plant.settings import Settings, read_settings
from eol.store.arrived import Arrived, with_runs_stored
from eol.store.connect import open_apart, open_store, write_lock
from eol.store.database import Database
from eol.store.declare import declare, fill_calendar, refresh_clauses
from eol.store.fresh import Arrival, write_files
from eol.store.publish import publish
from eol.store.retain import retain
from eol.store.run_ids import with_run_ids
from eol.store.stamp import stamp_units
from eol.store.take_back import take_back, touch_changed_keys
from eol.store.upgrade import open_upgraded
from eol.store.write import Fate, FileFacts, join_waiting, meet_again

__all__ = ["FileOutcome", "IngestResult", "Progress", "ingest"]

_HELD = "  Mend [feed.*.measure_units] in plant.toml, or load it as it is: eol ingest --accept FILE"

_SEEN_SCHEMA = {
    "path": pl.String(),
    "bytes": pl.Int64(),
    "changed_at": pl.Datetime("us", "UTC"),
    "state": pl.String(),
    "settings": pl.String(),
}


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
    moment = (now or datetime.now(UTC)).astimezone(UTC)
    load = _Load(folder, read_settings(folder.toml), moment, reason, accept, wait_seconds)
    with open_apart({}) as beside, ReadAhead(_parser(load, beside), progress) as read:
        # Named files whose units no key names need nothing of the store: they are read while it is opened.
        early = None if key_kinds(load.settings) else files
        read.begin(in_time_order(early or ()))
        view = _open_for_work(load, look=files is None)
        load.outcomes += [
            FileOutcome(p, "offline", message=f"{p}: {why}") for p, why in view.offline
        ]
        if early is None:
            read.begin(in_time_order([f.path for f in view.ready] if files is None else files))
        for group, last in grouped(read):
            with write_lock(folder, wait_seconds=wait_seconds):
                with open_store(folder) as store:
                    _write_group(store, load, group, view if last else None)
                    if last:
                        load.doubles = _new_doubles(store, moment)
                if last:
                    publish(folder)
    taken = {outcome.path for outcome in load.outcomes if outcome.state in TAKEN}
    put_away(folder, load.settings, [f for f in view.ready if f.path in taken] + [*view.left])
    return IngestResult(tuple(load.outcomes), load.units, load.doubles, view.resting)


def _open_for_work(load: _Load, *, look: bool) -> InboxView:
    """Bring schema and declared tables up to date before anything is written; look into the inbox."""
    with (
        write_lock(load.folder, wait_seconds=load.wait_seconds),
        open_upgraded(load.folder) as store,
    ):
        with store.transaction():
            if declare(store, load.settings, reason=load.reason, now=load.now):
                store.run("load", "touch_all")
            retain(store, load.settings.retention, now=load.now)
        load.unit_keys = known_keys(store, load.settings)
        seen = store.query_rows("load", "seen_files", settings=_fingerprint(load.folder))
    if not look:
        return InboxView((), (), 0, ())
    known = {
        InboxFile(Path(path), size, changed_at): taken for path, size, changed_at, taken in seen
    }
    return look_into_inbox(load.folder, load.settings, known)


def _parser(load: _Load, beside: Database) -> Callable[[Path], FileBatch]:
    """Return what reads, maps and checks one file, and names its runs with a database beside the store."""
    name = partial(pseudonym, read_pseudonym_key(load.folder.pseudonym_key))
    naming = Lock()

    def parse(path: Path) -> FileBatch:
        batch = parse_file(
            path, load.settings, now=load.now, pseudonym=name, unit_keys=load.unit_keys
        )
        with naming:
            return replace(batch, tables=with_run_ids(beside, batch.tables))

    return parse


def _write_group(
    store: Database, load: _Load, group: list[FileBatch | FileOutcome], view: InboxView | None
) -> None:
    """Bring a group of files into the store and stamp what they touch, in one transaction.

    Args:
        store: the open store.
        load: the ingest.
        group: files as they were read, and those refused; emptied once their rows are handed over, for memory.
        view: the inbox, with the last group alone; what waited for other files is tried then.
    """
    usual = {} if load.accept else usual_conditions(store)
    with store.transaction():
        told, arrived = _write(store, load, [_held_or(one, usual) for one in group])
        group.clear()
        named: list[FileOutcome] = []
        if view is not None and load.unit_keys is not None:
            arrived = with_runs_stored(store, arrived)
            named = _retry_waiting(store, load, load.unit_keys)
        join_waiting(store, arrived)
        fill_calendar(store, load.settings, newest=arrived.newest)
        load.units += stamp_units(store, arrived)
        load.outcomes += told
        if view is not None:
            note_settled(store)
            _note_seen(store, load, view)
    load.outcomes += named


def _held_or(one: FileBatch | FileOutcome, usual: Usual) -> FileBatch | FileOutcome:
    """Hold a file back whose condition has jumped."""
    if isinstance(one, FileOutcome) or not (jumped := list(jumps(one.tables, usual))):
        return one
    message = "\n".join([f"{one.path}: {'; '.join(jumped)}", _HELD])
    return FileOutcome(one.path, "held", one.feed, one.rows, message=message)


def _write(
    store: Database, load: _Load, group: Sequence[FileBatch | FileOutcome]
) -> tuple[list[FileOutcome], Arrived]:
    """Write the files that are new, and decide those again that are known.

    Returns:
        What became of each file, and what the stamps have to bring in.
    """
    batches = [one for one in group if isinstance(one, FileBatch)]
    known = _known(store, batches)
    fresh = {one.sha256: one for one in reversed(batches) if one.sha256 not in known}
    firsts = [one for one in batches if fresh.get(one.sha256) is one]
    written = write_files(store, [_arrival(one, load.now) for one in firsts])
    if any("defect_code" in one.tables for one in firsts):
        refresh_clauses(store)
    fates = dict(zip((one.sha256 for one in firsts), written.fates, strict=True))
    told = []
    for one in group:
        if isinstance(one, FileOutcome):
            told.append(one)
        elif fresh.get(one.sha256) is one:
            told.append(_outcome(one, fates[one.sha256]))
        else:
            told.append(_met_again(store, one))
    return told, written.arrived


def _known(store: Database, batches: Sequence[FileBatch]) -> dict[str, tuple[int, datetime]]:
    """The id and made_at of those contents that the store holds, by fingerprint."""
    sums = [one.sha256 for one in batches]
    rows = store.query_rows("store", "known_files", sha256s=sums)
    return {sha256: (file_id, made_at) for sha256, file_id, made_at in rows}


def _met_again(store: Database, batch: FileBatch) -> FileOutcome:
    ((file_id, known_at),) = _known(store, [batch]).values()
    path = str(batch.path)
    meet_again(store, file_id, known_at=known_at, made_at=batch.made_at, path=path)
    return FileOutcome(batch.path, "known", batch.feed, batch.rows, repeated=batch.rows)


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


def _arrival(batch: FileBatch, now: datetime) -> Arrival:
    facts = FileFacts(
        file_id=int(batch.sha256[:15], 16),
        feed=batch.feed,
        path=str(batch.path),
        sha256=batch.sha256,
        bytes=batch.size,
        made_at=batch.made_at,
        loaded_at=now,
        rows=batch.rows,
    )
    return Arrival(facts, batch.tables, batch.rejected, batch.keyed)


def _retry_waiting(store: Database, load: _Load, known: pl.DataFrame) -> list[FileOutcome]:
    """Write the rows that waited for a unit key which has come, or names another unit by now (rule 17).

    Args:
        store: the open store, in a transaction.
        load: the ingest.
        known: the unit keys that the files were read with.
    """
    touch_changed_keys(store, known)
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
