"""A file in, its rows as text out: CSV, TSV, JSON lines, Parquet and XLSX, plain, gzip or zstd.

Nothing is mapped or checked here. A row that cannot be read is refused with its reason and never
stops its file; a file that cannot be read as a whole is a FeedFileError.
"""

from __future__ import annotations

from pathlib import Path

from eol.feeds.raw import RawFile, ReadOptions
from eol.feeds.read_csv import read_csv
from eol.feeds.read_json import read_json_lines
from eol.feeds.read_parquet import read_parquet
from eol.feeds.read_xlsx import read_xlsx
from eol.feeds.sniff import FileKind, file_kind, source_kind
from eol.feeds.unpack import Packing, Source, content, open_source

__all__ = ["FileKind", "RawFile", "ReadOptions", "file_kind", "read_file"]


def read_file(path: Path, options: ReadOptions | None = None) -> RawFile:
    """Read a file of any kind.

    Args:
        path: the file.
        options: what the feed declares of its files; without it all is found out.

    Returns:
        Its rows under its own column names, the refused rows with their reasons, and notes on
        what was skipped; `file_row` counts kept and refused rows together, from 1.

    Raises:
        FeedFileError: the file is missing, empty, too large, damaged or no table.
    """
    options = options or ReadOptions()
    source = open_source(path, max_bytes=options.max_bytes)
    return _read(source, source_kind(source), options)


def _read(source: Source, kind: FileKind, options: ReadOptions) -> RawFile:
    where = str(source.path)
    match kind:
        case FileKind.CSV:
            return read_csv(content(source), options, where=where)
        case FileKind.TSV:
            return read_csv(content(source), options, where=where, usual="\t")
        case FileKind.JSON_LINES:
            return read_json_lines(content(source), options, where=where)
        case FileKind.XLSX:
            return read_xlsx(content(source), where=where, limit=source.limit)
        case FileKind.PARQUET:
            plain = source.packing is Packing.PLAIN
            stored = source.path if plain else content(source)
            return read_parquet(stored, where=where, limit=source.limit)
