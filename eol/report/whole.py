"""Writes a file of the reports folder whole or not at all."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from eol.errors import ReportError


def write_whole(path: Path, content: str | bytes) -> None:
    """Write beside the target and put it in place at once: a reader never sees half a page.

    Raises:
        ReportError: the folder cannot be written to.
    """
    data = content.encode() if isinstance(content, str) else content
    beside = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        beside.write_bytes(data)
        beside.replace(path)
    except OSError as error:
        with suppress(OSError):
            beside.unlink()
        raise ReportError(
            f"the page cannot be written: {error.strerror}",
            where=str(path),
            hint="Make room or mend the folder's rights, then run eol report again.",
        ) from error
