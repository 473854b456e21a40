"""Writes one part of a lake: the rows of a table and month as a Parquet file, streamed."""

from __future__ import annotations

import polars as pl
import pyarrow.parquet as pq

from eol.fleet import layout
from eol.fleet.manifest import Part
from eol.fleet.marks import group
from eol.fleet.place import Place, settle
from eol.sqlfiles import sql_file
from eol.store.database import Database, bound, filled, quoted

BATCH_ROWS = 122_880
_GONE = "lake_gone"


def write_part(
    copy: Database, place: Place, part: Part, path: str, *, left_out: pl.Series | None = None
) -> None:
    """Write the rows of a part to a path below the lake's root.

    Args:
        copy: the plant's published copy, the months of runs and units worked out in it.
        place: the lake.
        part: table and month.
        path: where to write; what is there is replaced.
        left_out: runs or units whose rows are left out.

    Raises:
        OSError: the lake cannot be written.
    """
    (statement,) = sql_file("lake", f"rows_{group(part.table)}").statements
    text = filled(statement, {"table": quoted(part.table), "left_out": quoted(_GONE)})
    with copy.lent(_GONE, _gone(part.table, left_out)):
        relation = copy.connection.sql(text, params=bound(text, {"month": part.month}))
        with (
            relation.to_arrow_reader(BATCH_ROWS) as rows,
            place.open_output(path) as stream,
            pq.ParquetWriter(stream, rows.schema, compression="zstd") as writer,
        ):
            for batch in rows:
                writer.write_batch(batch)
    if place.local is not None:
        settle(place.local / path)


def _gone(table: str, left_out: pl.Series | None) -> pl.DataFrame:
    kind = pl.Int64 if layout.KEY.get(table) == "run_id" else pl.String
    keys = pl.Series("key", [], dtype=kind) if left_out is None else left_out.cast(kind)
    return pl.DataFrame({"key": keys})
