"""Refused and waiting rows tried again, once the mapping is mended or the unit key has come."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

import polars as pl

from eol.errors import FeedFileError
from eol.feeds.batch import RowBatch
from eol.feeds.parse import parse_rows
from eol.feeds.rejected import rows_of
from eol.load.outcome import FileOutcome, IngestResult
from eol.load.settle import note_settled
from eol.plant.folder import PlantFolder
from eol.plant.persons import pseudonym, read_pseudonym_key
from eol.plant.settings import Settings, read_settings
from eol.store.connect import write_lock
from eol.store.database import Database
from eol.store.declare import declare, fill_calendar, refresh_clauses
from eol.store.publish import publish
from eol.store.run_ids import with_run_ids
from eol.store.stamp import stamp_units
from eol.store.upgrade import open_upgraded
from eol.store.write import join_waiting, note_keyed, recount, refuse_rows, write_rows

Parse = Callable[[str, pl.DataFrame, Path], RowBatch]
"""A feed's name, its rows and the file they came in: the rows, parsed."""

_FATE = ("file_row", "reason", "waits_for")


def load_again(
    folder: PlantFolder, *, now: datetime | None = None, wait_seconds: float = 60
) -> IngestResult:
    """Try every refused and waiting row again, stamp what they touch and publish the copy.

    Args:
        folder: the plant folder.
        now: the wall clock, UTC.
        wait_seconds: how long to wait for another process that writes.

    Returns:
        A row a file with refused rows: how many were accepted now and how many are refused still.

    Raises:
        PlantFileError: plant.toml is wrong or would change the past.
        StoreError: the store cannot be used.
    """
    settings, moment = read_settings(folder.toml), now or datetime.now(UTC)
    with write_lock(folder, wait_seconds=wait_seconds):
        with open_upgraded(folder) as store, store.transaction():
            declare(store, settings, reason=None, now=moment)
            outcomes = retry_rows(store, row_parser(store, folder, settings, now=moment))
            join_waiting(store)
            fill_calendar(store, settings)
            units = stamp_units(store)
            note_settled(store)
        publish(folder)
    return IngestResult(tuple(outcomes), units)


def known_keys(store: Database, settings: Settings) -> pl.DataFrame | None:
    """Return the unit keys of the kinds that name units in some feed; None where none does."""
    kinds = key_kinds(settings)
    return store.run("load", "known_keys", kinds=sorted(kinds)) if kinds else None


def key_kinds(settings: Settings) -> set[str]:
    """The kinds of unit keys that name units in some feed."""
    return {feed.named_by for feed in settings.feeds.values()} - {"vin"}


def row_parser(store: Database, folder: PlantFolder, settings: Settings, *, now: datetime) -> Parse:
    """Return what makes tables of a feed's kept rows, with the unit keys that the store holds now."""
    name = partial(pseudonym, read_pseudonym_key(folder.pseudonym_key))
    keys = known_keys(store, settings)

    def parse(feed: str, rows: pl.DataFrame, path: Path) -> RowBatch:
        return parse_rows(feed, rows, settings, path=path, now=now, pseudonym=name, unit_keys=keys)

    return parse


def retry_rows(store: Database, parse: Parse, *, waiting_only: bool = False) -> list[FileOutcome]:
    """Parse refused rows again and write those that are sound now; the caller holds the transaction.

    Args:
        store: the open store.
        parse: makes tables of a feed's rows.
        waiting_only: leave the refused ones alone and try those that wait for a unit key the store
            knows by now; a file of which none is sound yet is not told.
    """
    rows = store.run("load", "named_rows" if waiting_only else "refused_rows")
    if not rows.is_empty():
        store.run("load", "rank_files")
    told = [_retry_file(store, kept, parse) for _, kept in _by_file(rows)]
    outcomes = [outcome for outcome in told if outcome is not None]
    return [one for one in outcomes if one.accepted] if waiting_only else outcomes


def _by_file(rows: pl.DataFrame) -> list[tuple[tuple[object, ...], pl.DataFrame]]:
    return list(rows.group_by("file_id", maintain_order=True))


def _retry_file(store: Database, kept: pl.DataFrame, parse: Parse) -> FileOutcome | None:
    """Try the refused rows of one file; None where none of them can be read as cells."""
    file_id, feed, path = kept.select("file_id", "feed", "path").row(0)
    readable = rows_of(kept)
    if readable.is_empty():
        return None
    try:
        batch = parse(feed, readable, Path(path))
    except FeedFileError as error:
        return FileOutcome(Path(path), "refused", feed, readable.height, message=str(error))
    # A row with the same fate as before stays where it is.
    before = kept.select(pl.col(name) for name in _FATE)
    moved = batch.rejected.join(before, on=_FATE, how="anti", nulls_equal=True)
    stays = batch.rejected.select("file_row").join(moved, on="file_row", how="anti")
    tried = readable.select("file_row").join(stays, on="file_row", how="anti")
    if tried.height:
        refuse_rows(store, file_id, feed, tried=tried, rejected=moved)
        write_rows(store, file_id, with_run_ids(store, batch.tables))
        fresh = batch.keyed.join(tried, on="file_row", how="semi")
        note_keyed(store, file_id, feed, fresh)
        recount(store, file_id, tried.height - moved.height)
    if "defect_code" in batch.tables:
        refresh_clauses(store)
    return _outcome(Path(path), batch, readable.height)


def _outcome(path: Path, batch: RowBatch, rows: int) -> FileOutcome:
    return FileOutcome(
        path,
        "retried",
        batch.feed,
        rows,
        accepted=rows - batch.rejected.height,
        rejected=batch.refused.height,
        waiting=batch.waiting.height,
        reasons=batch.reasons,
    )
