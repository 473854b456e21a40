"""One scheduler a plant: a second one learns the pid of the first."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager

from filelock import FileLock, Timeout

from eol.plant.folder import PlantFolder


@contextmanager
def alone(folder: PlantFolder) -> Iterator[str | None]:
    """Hold the schedule of a plant; the lock goes with the process, also when that is killed.

    Yields:
        None where this process holds it, else the pid of the one that does, `unknown` at worst.
    """
    owner = folder.run_lock.with_suffix(".pid")
    lock = FileLock(folder.run_lock, timeout=0)
    try:
        lock.acquire()
    except Timeout:
        yield owner.read_text(encoding="ascii") if owner.exists() else "unknown"
        return
    try:
        owner.write_text(str(os.getpid()), encoding="ascii")
        yield None
    finally:
        lock.release()
