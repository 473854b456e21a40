"""Which kind of file it is: by its name and its first bytes; a contradiction is an error."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path

from eol.errors import FeedFileError
from eol.feeds.raw import ReadOptions
from eol.feeds.unpack import Source, open_source


class FileKind(StrEnum):
    """The kinds of file that can be read."""

    CSV = "CSV"
    TSV = "TSV"
    JSON_LINES = "JSON lines"
    PARQUET = "Parquet"
    XLSX = "XLSX"


_SUFFIXES = {
    ".csv": FileKind.CSV,
    ".tsv": FileKind.TSV,
    ".tab": FileKind.TSV,
    ".jsonl": FileKind.JSON_LINES,
    ".ndjson": FileKind.JSON_LINES,
    ".json": FileKind.JSON_LINES,
    ".parquet": FileKind.PARQUET,
    ".pq": FileKind.PARQUET,
    ".xlsx": FileKind.XLSX,
    ".xlsm": FileKind.XLSX,
}
_PACKED_SUFFIXES = (".gz", ".gzip", ".zst", ".zstd")
_BINARY_KINDS = {b"PAR1": FileKind.PARQUET, b"PK\x03\x04": FileKind.XLSX}
_FOREIGN = {
    b"\xd0\xcf\x11\xe0": "an old or password-protected office document",
    b"%PDF": "a PDF document",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"BZh": "a bzip2 archive",
    b"\xfd7zXZ": "an xz archive",
    b"7z\xbc\xaf": "a 7z archive",
    b"Rar!": "a RAR archive",
    b"PK\x05\x06": "an empty ZIP archive",
    b"SQLite format 3": "a database",
    b"ORC": "an ORC file",
    b"Obj\x01": "an Avro file",
    b"ARROW1": "an Arrow file",
}


def file_kind(path: Path) -> FileKind:
    """Say which kind of file lies at a path, whether plain, gzip or zstd.

    The suffix without `.gz` or `.zst` says it; a name without a known suffix is told by content:
    a first brace means JSON lines, other text means CSV.

    Raises:
        FeedFileError: the content contradicts the suffix or is no table, or cannot be read.
    """
    return source_kind(open_source(path, max_bytes=ReadOptions().max_bytes))


def source_kind(source: Source) -> FileKind:
    """Say which kind an opened file is of; raises like `file_kind`."""
    _refuse_foreign(source)
    named = named_kind(source.path)
    held = next(
        (kind for magic, kind in _BINARY_KINDS.items() if source.head.startswith(magic)), None
    )
    if held is None and named in _BINARY_KINDS.values():
        raise _contradiction(source, f"named like {named}, but its content is not {named}")
    if held is not None and named not in (None, held):
        raise _contradiction(source, f"named like {named}, but its content is {_held_words(held)}")
    return held or named or _text_kind(source.head)


def named_kind(path: Path) -> FileKind | None:
    """Return the kind that a file's name claims; None where it claims none."""
    suffixes = [suffix.lower() for suffix in path.suffixes]
    if suffixes and suffixes[-1] in _PACKED_SUFFIXES:
        suffixes.pop()
    return _SUFFIXES.get(suffixes[-1]) if suffixes else None


def _text_kind(head: bytes) -> FileKind:
    first = head.lstrip(b"\xef\xbb\xbf \t\r\n")[:1]
    return FileKind.JSON_LINES if first == b"{" else FileKind.CSV


def _refuse_foreign(source: Source) -> None:
    foreign = next(
        (what for magic, what in _FOREIGN.items() if source.head.startswith(magic)), None
    )
    if foreign:
        raise _contradiction(source, f"no table but {foreign}")


def _held_words(kind: FileKind) -> str:
    return "an XLSX workbook or another ZIP archive" if kind is FileKind.XLSX else f"{kind}"


def _contradiction(source: Source, what: str) -> FeedFileError:
    return FeedFileError(
        f"the file is {what}",
        where=str(source.path),
        hint="Send CSV, TSV, JSON lines, Parquet or XLSX (plain, gzip, zstd) under its own suffix.",
    )
