"""Reads files ahead of the writer, and gathers them into groups that are written in one go."""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import CancelledError, Future, ThreadPoolExecutor
from pathlib import Path
from threading import Condition
from types import TracebackType
from typing import Self

from eol.errors import FeedFileError
from eol.feeds.batch import FileBatch
from eol.load.outcome import FileOutcome

ROWS_AT_ONCE = 1_500_000
"""A group of so many rows takes no file of another time: half a year of runs, or a week where each has twenty
readings; some gigabyte."""
ROWS_AT_MOST = 2 * ROWS_AT_ONCE
"""A group of so many rows takes no file at all."""
READERS = 2
"""Files that are read at a time: nothing is written before the first group is read."""

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


class ReadAhead:
    """Reads, maps and checks files while the store is opened and those before them are written.

    Iterating gives what each file gave, in the order of the paths; a refused one as its outcome. Reading rests
    while the files that were read and not taken yet have a group's rows; the file that is waited for is read
    whatever the room. The end of the `with` block waits for files under way, and reads no other.

    Args:
        parse: makes the rows of one file; called by several threads.
        progress: told each file with its number and how many there are.
    """

    def __init__(self, parse: Parse, progress: Progress | None = None) -> None:
        self._parse, self._progress = parse, progress
        self._readers = ThreadPoolExecutor(READERS, thread_name_prefix="eol-read")
        self._files: deque[tuple[Path, Future[FileBatch | FileOutcome]]] = deque()
        self._rows = self._next = 0
        self._stopped = False
        self._changed = Condition()

    def begin(self, paths: Sequence[Path]) -> None:
        """Begin to read files; the first of them is taken later."""
        for number, path in enumerate(paths, start=len(self._files)):
            self._files.append((path, self._readers.submit(self._read, path, number)))

    def __iter__(self) -> Iterator[FileBatch | FileOutcome]:
        total = len(self._files)
        for number in range(1, total + 1):
            path, file = self._files.popleft()
            if self._progress is not None:
                self._progress(path, number, total)
            yield self._taken(file.result())

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        with self._changed:
            self._stopped = True
            self._changed.notify_all()
        self._readers.shutdown(cancel_futures=True)

    def _read(self, path: Path, number: int) -> FileBatch | FileOutcome:
        """Read a file, once there is room or it is the next."""
        with self._changed:
            self._changed.wait_for(
                lambda: self._stopped or self._rows < ROWS_AT_ONCE or number == self._next
            )
            if self._stopped:
                raise CancelledError
        file = _parsed(self._parse, path)
        with self._changed:
            self._rows += _rows(file)
        return file

    def _taken(self, file: FileBatch | FileOutcome) -> FileBatch | FileOutcome:
        with self._changed:
            self._rows -= _rows(file)
            self._next += 1
            self._changed.notify_all()
        return file


def _parsed(parse: Parse, path: Path) -> FileBatch | FileOutcome:
    try:
        return parse(path)
    except FeedFileError as error:
        return FileOutcome(path, "refused", message=str(error))


def _rows(file: FileBatch | FileOutcome) -> int:
    """How many rows a file holds in memory: one of wide readings has many times its own rows."""
    if not isinstance(file, FileBatch):
        return 0
    return sum(one.height for one in (*file.tables.values(), file.rejected, file.keyed))


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
        rows += _rows(file)
    yield group, True


def _new_time(group: Sequence[FileBatch | FileOutcome], file: FileBatch | FileOutcome) -> bool:
    return _time_told(group[-1].path) != _time_told(file.path)
