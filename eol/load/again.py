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
from eol.load.ingest import FileOutcome, IngestResult
from eol.plant.folder import PlantFolder
from eol.plant.persons import pseudonym, read_pseudonym_key
from eol.plant.settings import read_settings
from eol.store.connect import open_store, write_lock
from eol.store.database import Database
from eol.store.declare import declare, fill_calendar, refresh_clauses
from eol.store.publish import publish
from eol.store.schema import prepare_schema
from eol.store.stamp import stamp_units
from eol.store.write import recount, refuse_rows, write_rows

Parse = Callable[[str, pl.DataFrame, Path], RowBatch]


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
    name = partial(pseudonym, read_pseudonym_key(folder.pseudonym_key))
    with write_lock(folder, wait_seconds=wait_seconds):
        with open_store(folder) as store:
            prepare_schema(store)
            with store.transaction():
                declare(store, settings, reason=None, now=moment)
                keys = store.run("load", "known_keys")

                def parse(feed: str, rows: pl.DataFrame, path: Path) -> RowBatch:
                    return parse_rows(
                        feed, rows, settings, path=path, now=moment, pseudonym=name, unit_keys=keys
                    )

                outcomes = retry_rows(store, parse)
                fill_calendar(store, settings)
                units = stamp_units(store)
        publish(folder)
    return IngestResult(tuple(outcomes), units)


def retry_rows(store: Database, parse: Parse, *, waiting_only: bool = False) -> list[FileOutcome]:
    """Parse refused rows again and write those that are sound now; the caller holds the transaction.

    Args:
        store: the open store.
        parse: makes tables of a feed's rows.
        waiting_only: leave the refused ones alone and try those that wait for a unit key.
    """
    refused = store.run("load", "refused_rows")
    if waiting_only:
        refused = refused.filter(pl.col("waits_for").is_not_null())
    return [
        outcome
        for _, rows in refused.group_by("file_id", maintain_order=True)
        if (outcome := _retry_file(store, rows, parse)) is not None
    ]


def _retry_file(store: Database, rows: pl.DataFrame, parse: Parse) -> FileOutcome | None:
    """Try the refused rows of one file; None where none of them can be read as cells."""
    file_id, feed, path = rows.select("file_id", "feed", "path").row(0)
    readable = rows_of(rows)
    if readable.is_empty():
        return None
    try:
        batch = parse(feed, readable, Path(path))
    except FeedFileError as error:
        return FileOutcome(Path(path), "refused", feed, readable.height, message=str(error))
    refuse_rows(store, file_id, feed, tried=readable.select("file_row"), rejected=batch.rejected)
    write_rows(store, file_id, batch.tables)
    if "defect_code" in batch.tables:
        refresh_clauses(store)
    mended = readable.height - batch.rejected.height
    recount(store, file_id, mended)
    return FileOutcome(
        Path(path), "loaded", feed, readable.height, accepted=mended, rejected=batch.rejected.height
    )
