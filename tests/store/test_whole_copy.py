"""A file is copied whole, by the kernel where it can."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from eol.store.whole_copy import copy_whole


def copied(tmp_path: Path) -> bool:
    """Copy a file over a longer one, and tell whether the bytes are the same."""
    source, target = tmp_path / "plant ü.duckdb", tmp_path / "copy.duckdb"
    source.write_bytes(os.urandom(3_000_000))
    target.write_bytes(bytes(4_000_000))
    copy_whole(source, target)
    return target.read_bytes() == source.read_bytes()


def test_bytes_are_the_same(tmp_path: Path) -> None:
    """What stood in the target is gone, to its last byte."""
    assert copied(tmp_path)


@pytest.mark.skipif(not hasattr(os, "copy_file_range"), reason="the kernel copies on Linux alone")
@pytest.mark.parametrize("why", [errno.EXDEV, errno.EOPNOTSUPP, errno.ENOSYS])
def test_where_the_kernel_does_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, why: int
) -> None:
    """Between two file systems, or without the call, the bytes are read and written."""

    def refuses(*_: object) -> int:
        raise OSError(why, os.strerror(why))

    monkeypatch.setattr(os, "copy_file_range", refuses)
    assert copied(tmp_path)


@pytest.mark.skipif(not hasattr(os, "copy_file_range"), reason="the kernel copies on Linux alone")
def test_full_disk_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk without room is no reason to try another way."""

    def full(*_: object) -> int:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "copy_file_range", full)
    with pytest.raises(OSError, match="No space left"):
        copied(tmp_path)
