"""A file in, a FileBatch out: read, mapped, checked and made tables apart from the store.

`parse_rows` takes the same way without a file, for rejected rows that are tried again, and
`explain` shows how a file is understood without loading it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import polars as pl

from eol.errors import FeedFileError
from eol.feeds.batch import Explanation, FileBatch, RowBatch, Tables
from eol.feeds.catalogues import TABLES as CATALOGUES
from eol.feeds.catalogues import catalogue_tables
from eol.feeds.check import check_rows
from eol.feeds.corrections import correction_tables
from eol.feeds.feed import Feed, Pseudonym, feed_of, open_feed
from eol.feeds.findings import finding_tables
from eol.feeds.made_at import made_at as file_made_at
from eol.feeds.made_at import name_notes
from eol.feeds.mapping import Mapped, broken_notes, extra_notes, map_rows, mapping_lines
from eol.feeds.raw import FILE_ROW, RawFile, ReadOptions, refused_frame
from eol.feeds.read import read_file
from eol.feeds.readings import reading_tables, shaped_feed
from eol.feeds.rejected import keyed_rows, rejected_rows, unreadable_rows
from eol.feeds.repairs import event_tables, repair_tables
from eol.feeds.runs import run_tables
from eol.feeds.shifts import shift_tables
from eol.feeds.unit_keys import name_units
from eol.feeds.units import attribute_tables, unit_tables
from eol.plant.settings import Settings

_NEVER_TIME = r"\d\d:\d\d does not exist on \d{4}-\d\d-\d\d"


def parse_file(
    path: Path,
    settings: Settings,
    *,
    feed: str | None = None,
    now: datetime | None = None,
    made_at: datetime | None = None,
    pseudonym: Pseudonym | None = None,
    unit_keys: pl.DataFrame | None = None,
) -> FileBatch:
    """Read, map and check a file.

    Args:
        path: the file.
        settings: plant.toml.
        feed: the feed it belongs to; by default its name says so.
        now: the wall clock of the load, UTC; later times are refused. By default the present.
        made_at: when the file was made, UTC; by default its name or last change says so.
        pseudonym: what makes a person a pseudonym (rule 18); None drops persons.
        unit_keys: the unit keys known so far: kind, value, vin, valid_from, valid_to (UTC,
            half-open, null for an open end); None where there are none.

    Returns:
        The accepted rows as tables, the rejected ones with reasons; those that wait for a unit key
        are among the rejected (rule 17).

    Raises:
        FeedFileError: the file as a whole cannot be used.
    """
    opened = _open(path, settings, feed=feed, now=now, pseudonym=pseudonym, unit_keys=unit_keys)
    return _file_batch(path, opened, made_at)[0]


def parse_rows(
    feed: str,
    rows: pl.DataFrame,
    settings: Settings,
    *,
    path: Path | None = None,
    now: datetime | None = None,
    pseudonym: Pseudonym | None = None,
    unit_keys: pl.DataFrame | None = None,
) -> RowBatch:
    """Map and check rows that are there already, as rejected rows that are tried again.

    Args:
        feed: the feed they came by.
        rows: the file's own columns and file_row (eol.feeds.rejected.rows_of gives them).
        settings: plant.toml.
        path: the file they came in, whose name says whether the feed's mapping is for it.
        now: the wall clock, UTC; by default the present.
        pseudonym: what makes a person a pseudonym (rule 18); None drops persons.
        unit_keys: the unit keys known so far, as for `parse_file`.

    Raises:
        FeedFileError: a required column is missing.
    """
    opened = open_feed(feed, settings, path=path, now=now, pseudonym=pseudonym, unit_keys=unit_keys)
    where = path.name if path else f"rows of {feed}"
    return _parse(RawFile(rows, refused_frame()), opened, where)


def explain(
    path: Path,
    settings: Settings,
    *,
    feed: str | None = None,
    now: datetime | None = None,
    first_rows: int = 5,
    unit_keys: pl.DataFrame | None = None,
) -> Explanation:
    """Say how a file is understood; nothing is loaded and persons are left out.

    Args:
        path: the file.
        settings: plant.toml.
        feed: the feed it belongs to; by default its name says so.
        now: the wall clock, UTC; by default the present.
        first_rows: how many rows of each table are shown.
        unit_keys: the unit keys known so far, as for `parse_file`.

    Raises:
        FeedFileError: the file as a whole cannot be used.
    """
    opened = _open(path, settings, feed=feed, now=now, pseudonym=None, unit_keys=unit_keys)
    batch, raw = _file_batch(path, opened, None)
    mapped = map_rows(raw.frame, opened, where=path.name)
    return Explanation(
        batch=batch,
        mapping=mapping_lines(mapped, opened),
        first={name: table.head(first_rows) for name, table in batch.tables.items()},
        reasons=count_reasons(batch.rejected),
    )


def count_reasons(rejected: pl.DataFrame) -> pl.DataFrame:
    """Return `reason`, its cells left out, and `rows`, the most frequent first."""
    kind = pl.col("waits_for").str.splitn("=", 2).struct[0]
    waits = pl.format("waits for the unit key {} …", kind)
    reason = pl.coalesce(waits, pl.col("reason").str.replace_all(r"'[^']*'", "'…'"))
    named = reason.str.replace_all(_NEVER_TIME, "… does not exist on …").alias("reason")
    kinds = rejected.select(named)
    counts = kinds.group_by("reason").agg(pl.len().cast(pl.Int64).alias("rows"))
    return counts.sort(["rows", "reason"], descending=[True, False])


def _open(
    path: Path,
    settings: Settings,
    *,
    feed: str | None,
    now: datetime | None,
    pseudonym: Pseudonym | None,
    unit_keys: pl.DataFrame | None,
) -> Feed:
    name, named = feed or feed_of(path, settings), path if feed is None else None
    return open_feed(name, settings, path=named, now=now, pseudonym=pseudonym, unit_keys=unit_keys)


def _read(path: Path, feed: Feed) -> RawFile:
    options = feed.options
    read_options = ReadOptions(
        delimiter=options.delimiter,
        encoding=options.encoding,
        decimal=options.decimal,
        max_bytes=feed.settings.inbox.max_bytes,
    )
    before = _state(path)
    raw = read_file(path, read_options)
    if _state(path) != before:
        raise FeedFileError(
            "the file changed while it was read",
            where=path.name,
            hint="Load it again when it is written to its end.",
        )
    return raw


def _state(path: Path) -> tuple[int, int] | None:
    """Size and time of the last change; None where there is no file, which reading tells better."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_size, found.st_mtime_ns


def _file_batch(path: Path, feed: Feed, made: datetime | None) -> tuple[FileBatch, RawFile]:
    """The file as a batch, and as it was sent."""
    raw = _read(path, feed)
    rows = _parse(raw, feed, path.name)
    pattern, zone = feed.options.made_at, feed.zone
    batch = FileBatch(
        feed=rows.feed,
        kind=rows.kind,
        test=rows.test,
        rows=rows.rows,
        tables=rows.tables,
        rejected=rows.rejected,
        keyed=rows.keyed,
        notes=(*rows.notes, *name_notes(path, pattern=pattern, zone=zone)),
        path=path,
        sha256=_sha256(path),
        size=path.stat().st_size,
        made_at=made or file_made_at(path, pattern=pattern, zone=zone),
    )
    return batch, raw


def _sha256(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _parse(raw: RawFile, feed: Feed, where: str) -> RowBatch:
    mapped = map_rows(raw.frame, feed, where=where)
    shaped, column_notes = _shaped(feed, mapped, where)
    checked = check_rows(mapped, shaped)
    named = name_units(checked.frame, shaped)
    tables = _tables(named.rows, shaped, mapped)
    refused = checked.refused.with_columns(pl.lit(None, dtype=pl.String).alias("waits_for"))
    lost = pl.concat([refused, named.waiting]).sort(FILE_ROW)
    rejected = [
        rejected_rows(raw.frame, lost, mapped.sources, shaped),
        unreadable_rows(raw.frame, raw.refused, mapped.sources, shaped),
    ]
    return RowBatch(
        feed=feed.name,
        kind=feed.kind,
        test=feed.test,
        rows=raw.frame.height + raw.refused.height,
        tables=tables.frames,
        rejected=pl.concat(rejected).sort("file_row"),
        keyed=keyed_rows(raw.frame, named.keyed, mapped.sources, shaped),
        notes=(*raw.notes, *broken_notes(raw.frame), *column_notes, *checked.notes, *tables.notes),
    )


def _shaped(feed: Feed, mapped: Mapped, where: str) -> tuple[Feed, tuple[str, ...]]:
    """The feed as this file needs it, and what is said of the columns it does not know."""
    if feed.kind == "readings":
        return shaped_feed(feed, mapped, where=where)
    return feed, () if feed.kind == "units" else extra_notes(mapped, feed)


def _tables(rows: pl.DataFrame, feed: Feed, mapped: Mapped) -> Tables:
    if feed.kind == "units":
        return unit_tables(rows, feed, mapped.extra)
    if feed.kind in CATALOGUES:
        return catalogue_tables(rows, feed)
    return _BUILDERS[feed.kind](rows, feed)


_BUILDERS: dict[str, Callable[[pl.DataFrame, Feed], Tables]] = {
    "test": run_tables,
    "findings": finding_tables,
    "readings": reading_tables,
    "attributes": attribute_tables,
    "repairs": repair_tables,
    "events": event_tables,
    "corrections": correction_tables,
    "shifts": shift_tables,
}
