"""Copies a file whole: at once where the file system lets two files share what they have in common."""

from __future__ import annotations

import errno
import os
import shutil
from pathlib import Path

_NOT_HERE = {errno.EXDEV, errno.ENOSYS, errno.EOPNOTSUPP, errno.EINVAL, errno.EPERM}
"""The kernel does not copy between these two files."""


def copy_whole(source: Path, target: Path) -> None:
    """Copy the bytes of a file into another, which is replaced where it is there.

    On Linux the kernel copies (copy_file_range(2)); XFS and Btrfs then share the blocks, so that a copy of
    any size takes no time and no room until one of the two is changed.

    Raises:
        OSError: the file cannot be read, or the copy not be written.
    """
    try:
        _copied_by_kernel(source, target)
    except OSError as error:
        if error.errno not in _NOT_HERE:
            raise
        shutil.copyfile(source, target)


def _copied_by_kernel(source: Path, target: Path) -> None:
    if not hasattr(os, "copy_file_range"):
        raise OSError(errno.ENOSYS, os.strerror(errno.ENOSYS))
    with source.open("rb") as old, target.open("wb") as new:
        left = os.fstat(old.fileno()).st_size
        while left:
            copied = os.copy_file_range(old.fileno(), new.fileno(), left)
            if not copied:
                raise OSError(errno.EIO, "the file has become shorter", str(source))
            left -= copied
