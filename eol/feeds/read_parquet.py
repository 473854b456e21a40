"""Parquet, with its own types: what is a number or a time there needs no reading of text."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import polars as pl
import pyarrow as pa
import pyarrow.parquet as pq

from eol.errors import FeedFileError
from eol.feeds.hushed import hushed
from eol.feeds.raw import RawFile, number_rows, refused_frame

_CELL_BYTES = 4
_READ_ERRORS = (
    pl.exceptions.PolarsError,
    pl.exceptions.PanicException,
    pa.ArrowException,
    UnicodeDecodeError,
    OSError,
)


def read_parquet(source: Path | bytes, *, where: str, limit: int) -> RawFile:
    """Read a Parquet file.

    Args:
        source: its path, or its bytes where it lay packed.
        where: the file, for messages.
        limit: the most bytes that its columns may unpack to.

    Raises:
        FeedFileError: it is damaged or cut off, or unpacks to more than the limit.
    """
    try:
        _refuse_swollen(source, where, limit)
        with hushed():
            frame = pl.read_parquet(source, hive_partitioning=False, glob=False)
    except _READ_ERRORS as error:
        raise FeedFileError(
            f"the Parquet file is damaged or cut off ({_first_line(error)})",
            where=where,
            hint="Nothing of this file was loaded; have it sent again.",
        ) from error
    return RawFile(number_rows(frame), refused_frame())


def _refuse_swollen(source: Path | bytes, where: str, limit: int) -> None:
    """Refuse a small file that unpacks to more than memory may hold, by what its footer says."""
    footer = pq.read_metadata(BytesIO(source) if isinstance(source, bytes) else source)
    groups = (footer.row_group(index) for index in range(footer.num_row_groups))
    unpacked = sum(group.total_byte_size for group in groups)
    size = max(unpacked, footer.num_rows * footer.num_columns * _CELL_BYTES)
    if size > limit:
        raise FeedFileError(
            f"the Parquet file unpacks to {size:,} bytes, the limit is {limit:,}",
            where=where,
            hint="Split the file, or raise inbox.max_bytes in plant.toml.",
        )


def _first_line(error: BaseException) -> str:
    return str(error).splitlines()[0][:200] if str(error) else type(error).__name__
