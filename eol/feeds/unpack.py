"""A path in, the unpacked bytes out: plain, gzip or zstd by content, never more than the limit."""

from __future__ import annotations

import gzip
import stat
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

import zstandard

from eol.errors import FeedFileError

UNPACKED_FACTOR = 2
"""Unpacked, a file may hold this many times the limit, so that a small file fills no memory."""

HEAD_BYTES = 4096
_READ_BYTES = 1 << 20
_ZSTD_READ_BYTES = (
    4096  # one zstd block of 4 bytes may unpack to 128 kB, so a step stays under 128 MB
)
_LOCK_PREFIXES = ("~$", ".~lock.")


class Packing(StrEnum):
    """How the bytes of a file are packed."""

    PLAIN = "plain"
    GZIP = "gzip"
    ZSTD = "zstd"


_PACKING_MAGIC = {b"\x1f\x8b": Packing.GZIP, b"\x28\xb5\x2f\xfd": Packing.ZSTD}


@dataclass(frozen=True, slots=True)
class Source:
    """A file that is there, is not too large, and whose packing is known.

    Args:
        path: where it lies.
        size: its bytes as it lies there.
        packing: by its first bytes, whatever its name says.
        head: its first unpacked bytes, at most 4096.
        limit: the most bytes that it may unpack to.
    """

    path: Path
    size: int
    packing: Packing
    head: bytes
    limit: int


def open_source(path: Path, *, max_bytes: int) -> Source:
    """Look at a file without reading it whole.

    Raises:
        FeedFileError: it is missing, empty, a folder, an office lock file, unreadable or too large.
    """
    _refuse_lock_file(path)
    size = _size(path)
    if size > max_bytes:
        raise FeedFileError(
            f"the file has {size:,} bytes, the limit is {max_bytes:,}",
            where=str(path),
            hint="Split the file, or raise inbox.max_bytes in plant.toml.",
        )
    packing = _packing(_first_bytes(path))
    limit = max_bytes * UNPACKED_FACTOR
    head = next((chunk for chunk in _chunks(path, packing) if chunk), b"")[:HEAD_BYTES]
    if not head:
        raise FeedFileError("the file is empty", where=str(path))
    if packing is not Packing.PLAIN and _packing(head) is not Packing.PLAIN:
        raise FeedFileError("the file is packed twice", where=str(path), hint="Unpack it once.")
    return Source(path, size, packing, head, limit)


def content(source: Source) -> bytes:
    """Read and unpack the whole file.

    Raises:
        FeedFileError: it cannot be read, is cut off or damaged, or unpacks to more than the limit.
    """
    if source.packing is Packing.PLAIN:
        return _plain_content(source.path)
    pieces, total = [], 0
    for piece in _chunks(source.path, source.packing):
        pieces.append(piece)
        total += len(piece)
        if total > source.limit:
            raise FeedFileError(
                f"the file has {source.size:,} bytes but unpacks to more than {source.limit:,}",
                where=str(source.path),
                hint="Split the file, or raise inbox.max_bytes in plant.toml.",
            )
    return b"".join(pieces)


def _refuse_lock_file(path: Path) -> None:
    if path.name.startswith(_LOCK_PREFIXES):
        raise FeedFileError(
            "this is the lock file of an office program, not a table",
            where=str(path),
            hint="It goes away when the table is closed; leave it.",
        )


def _size(path: Path) -> int:
    try:
        status = path.stat()
    except OSError as error:
        raise _unreadable(path, error) from error
    if stat.S_ISDIR(status.st_mode):
        raise FeedFileError("this is a folder, not a file", where=str(path))
    if not stat.S_ISREG(status.st_mode):
        raise FeedFileError("this is a device or pipe, not a file", where=str(path))
    return status.st_size


def _first_bytes(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            return file.read(4)
    except OSError as error:
        raise _unreadable(path, error) from error


def _packing(head: bytes) -> Packing:
    found = (packing for magic, packing in _PACKING_MAGIC.items() if head.startswith(magic))
    return next(found, Packing.PLAIN)


def _plain_content(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise _unreadable(path, error) from error


def _chunks(path: Path, packing: Packing) -> Iterator[bytes]:
    """Yield the unpacked bytes piece by piece; a packed stream must end where it says."""
    try:
        if packing is Packing.GZIP:
            with gzip.open(path, "rb") as packed:
                yield from iter(lambda: packed.read(_READ_BYTES), b"")
        else:
            with path.open("rb") as file:
                step = _ZSTD_READ_BYTES if packing is Packing.ZSTD else _READ_BYTES
                pieces = iter(lambda: file.read(step), b"")
                yield from _unzstd(pieces) if packing is Packing.ZSTD else pieces
    except EOFError as error:
        raise _damaged(path, packing, "is cut off before its end") from error
    except (gzip.BadGzipFile, zlib.error, zstandard.ZstdError) as error:
        raise _damaged(path, packing, f"is damaged ({error})") from error
    except OSError as error:
        raise _unreadable(path, error) from error


def _unzstd(pieces: Iterator[bytes]) -> Iterator[bytes]:
    """Unpack zstd frames one by one; the stream reader would take a cut file for a whole one."""
    frame = None
    for piece in pieces:
        rest = piece
        while rest:
            frame = frame or zstandard.ZstdDecompressor().decompressobj()
            yield frame.decompress(rest)
            rest = frame.unused_data
            frame = None if frame.eof else frame
    if frame is not None:
        raise EOFError


def _damaged(path: Path, packing: Packing, how: str) -> FeedFileError:
    return FeedFileError(
        f"the {packing} data {how}",
        where=str(path),
        hint="Nothing of this file was loaded; have it sent again.",
    )


def _unreadable(path: Path, error: OSError) -> FeedFileError:
    return FeedFileError(
        f"the file cannot be read: {(error.strerror or str(error)).lower()}",
        where=str(path),
        hint="See that the file is there, the share is mounted and the reader may read it.",
    )
