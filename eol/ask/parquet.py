"""The copy as Parquet files, one a table and view, for whatever reads Parquet; each column with its words."""

from __future__ import annotations

import os
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

import pyarrow as pa
import pyarrow.parquet as pq

from eol.ask.dictionary import Dictionary, RelationWords, dictionary
from eol.errors import StoreError
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy
from eol.store.database import Database

_ROWS_AT_ONCE = 100_000
LEFT_OUT = {"scoped_unit", "unit_at_risk"}
"""Views that hold every unit once for each of 21 windows: steps of other views, and larger than all else."""

WORDS = "dictionary"
"""The file that tells what the others hold, a row a column."""


@dataclass(frozen=True, slots=True)
class PublishedFiles:
    """The files written: their folder and the rows of each table and view."""

    folder: Path
    rows: dict[str, int]


def publish_parquet(folder: PlantFolder, target: Path) -> PublishedFiles:
    """Write every table and view of the published copy as `NAME.parquet`, and `dictionary.parquet` beside them.

    Losing versions and the views of `LEFT_OUT` stay out. A file takes its place whole, so that a reader
    never sees a part of one. Views of the plant's own (`mine`) lie in the folder `mine`. Times are UTC.

    Args:
        folder: the plant folder.
        target: the folder to write to; made where it is not there.

    Raises:
        StoreError: nothing has been published yet, or a file cannot be written.
    """
    words = dictionary(folder)
    told = [r for r in words.relations if r.name not in LEFT_OUT]
    kept = [r for r in told if not r.name.startswith("superseded.")]
    with open_copy(folder) as copy:
        try:
            rows = {relation.name: _write(copy, relation, target) for relation in kept}
            _write_words(words, target)
        except OSError as error:
            raise StoreError(
                f"the files cannot be written: {error.strerror}",
                where=str(error.filename or target),
                hint="Name a folder with room that you may write to; what was written before stays.",
            ) from error
    return PublishedFiles(target, rows)


def _write(copy: Database, relation: RelationWords, target: Path) -> int:
    path = target.joinpath(*relation.name.split(".")).with_suffix(".parquet")
    path.parent.mkdir(parents=True, exist_ok=True)
    reader = copy.connection.table(relation.name).to_arrow_reader(_ROWS_AT_ONCE)
    schema = _told(reader.schema, relation)
    fresh = path.with_name(f"_{path.name}.{os.getpid()}.part")
    rows = 0
    try:
        with pq.ParquetWriter(fresh, schema, compression="zstd") as writer:
            for batch in reader:
                writer.write_batch(batch.cast(schema) if batch.schema != schema else batch)
                rows += batch.num_rows
        fresh.replace(path)
    finally:
        with suppress(OSError):
            fresh.unlink(missing_ok=True)
    return rows


def _told(schema: pa.Schema, relation: RelationWords) -> pa.Schema:
    """The schema with the words of the table and of each column in its metadata."""
    comments = {column.name: column.comment for column in relation.columns}
    fields = [field.with_metadata({"comment": comments[field.name]}) for field in schema]
    return pa.schema(fields, metadata={"comment": relation.comment})


def _write_words(words: Dictionary, target: Path) -> None:
    fresh = target / f"_{WORDS}.{os.getpid()}.part"
    try:
        words.frame.write_parquet(fresh)
        fresh.replace(target / f"{WORDS}.parquet")
    finally:
        with suppress(OSError):
            fresh.unlink(missing_ok=True)
