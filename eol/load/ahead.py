"""Reads files ahead of the writer, and gathers them into groups that are written in one go."""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Condition

from eol.errors import FeedFileError
from eol.feeds.batch import FileBatch
from eol.load.outcome import FileOutcome

ROWS_AT_ONCE = 400_000
"""A group of so many rows takes no file of another time: a month of a plant, a few hundred megabytes."""
ROWS_AT_MOST = 2 * ROWS_AT_ONCE
"""A group of so many rows takes no file at all."""

Parse = Callable[[Path], FileBatch]
Progress = Callable[[Path, int, int], None]

_NUMBER = re.compile(r"\d+")


def in_time_order(paths: Iterable[Path]) -> list[Path]:
    """Sort files by the numbers in their names, which mostly tell the time, then by path.

    The order does not matter to the tables (rule 1); files of one time in one group let each unit be
    stamped once.
    """
    return sorted(paths, key=lambda path: (_time_told(path), path))


def _time_told(path: Path) -> str:
    return "".join(_NUMBER.findall(path.stem))


def read_ahead(
    paths: Sequence[Path], parse: Parse, progress: Progress | None = None
) -> Generator[FileBatch | FileOutcome]:
    """Read, map and check files in turn, while those before them are written.

    Args:
        paths: the files.
        parse: makes the rows of one file.
        progress: told each file with its number and how many there are.

    Yields:
        What a file gave, in the order of the paths; a refused one as its outcome.
    """
    ahead = _Ahead()
    with ThreadPoolExecutor(max_workers=1, thread_name_prefix="eol-read") as reader:
        files = deque((path, reader.submit(ahead.read, parse, path)) for path in paths)
        try:
            for number in range(1, len(paths) + 1):
                path, file = files.popleft()
                if progress is not None:
                    progress(path, number, len(paths))
                yield ahead.taken(file.result())
        finally:
            ahead.stop()
            reader.shutdown(cancel_futures=True)


class _Ahead:
    """Reading rests while the files that were read and not taken yet have a group's rows."""

    def __init__(self) -> None:
        self._rows = 0
        self._stopped = False
        self._changed = Condition()

    def read(self, parse: Parse, path: Path) -> FileBatch | FileOutcome:
        """Read a file, once there is room."""
        with self._changed:
            self._changed.wait_for(lambda: self._stopped or self._rows < ROWS_AT_ONCE)
        file = _parsed(parse, path)
        with self._changed:
            self._rows += file.rows
        return file

    def taken(self, file: FileBatch | FileOutcome) -> FileBatch | FileOutcome:
        """Note that a file is taken, and return it."""
        with self._changed:
            self._rows -= file.rows
            self._changed.notify_all()
        return file

    def stop(self) -> None:
        """Let nothing wait any longer."""
        with self._changed:
            self._stopped = True
            self._changed.notify_all()


def _parsed(parse: Parse, path: Path) -> FileBatch | FileOutcome:
    try:
        return parse(path)
    except FeedFileError as error:
        return FileOutcome(path, "refused", message=str(error))


def grouped(
    files: Iterable[FileBatch | FileOutcome],
) -> Iterator[tuple[list[FileBatch | FileOutcome], bool]]:
    """Gather files so that the store is opened once for many small ones and memory stays bounded.

    Yields:
        The files of a group, and whether it is the last one; that one may be empty.
    """
    group: list[FileBatch | FileOutcome] = []
    rows = 0
    for file in files:
        if rows >= ROWS_AT_MOST or (rows >= ROWS_AT_ONCE and _new_time(group, file)):
            yield group, False
            group, rows = [], 0
        group.append(file)
        rows += file.rows
    yield group, True


def _new_time(group: Sequence[FileBatch | FileOutcome], file: FileBatch | FileOutcome) -> bool:
    return _time_told(group[-1].path) != _time_told(file.path)
