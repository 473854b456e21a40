"""Reads files ahead of the writer, and gathers them into groups that are written in one go."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path

from eol.errors import FeedFileError
from eol.feeds.batch import FileBatch
from eol.load.outcome import FileOutcome

ROWS_AT_ONCE = 600_000
"""A group ends when its files have so many rows: a month of a plant, a few hundred megabytes at most."""

Parse = Callable[[Path], FileBatch]
Progress = Callable[[Path, int, int], None]

_NUMBER = re.compile(r"\d+")


def in_time_order(paths: Iterable[Path]) -> list[Path]:
    """Sort files by the numbers in their names, which mostly tell the time, then by path.

    The order does not matter to the tables (rule 1); files of one time in one group let each unit be
    stamped once.
    """
    return sorted(paths, key=lambda path: ("".join(_NUMBER.findall(path.stem)), path))


def read_ahead(
    paths: Sequence[Path], parse: Parse, progress: Progress | None = None
) -> Iterator[FileBatch | FileOutcome]:
    """Read, map and check files in turn, each while what came before it is written.

    Args:
        paths: the files.
        parse: makes the rows of one file.
        progress: told each file with its number and how many there are, as it is read.

    Yields:
        What a file gave, in the order of the paths; a refused one as its outcome.
    """
    with ThreadPoolExecutor(max_workers=1, thread_name_prefix="eol-read") as reader:
        upcoming: Future[FileBatch | FileOutcome] | None = None
        for number, path in enumerate(paths, start=1):
            if progress is not None:
                progress(path, number, len(paths))
            done, upcoming = upcoming, reader.submit(_parsed, parse, path)
            if done is not None:
                yield done.result()
        if upcoming is not None:
            yield upcoming.result()


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
        group.append(file)
        rows += file.rows
        if rows >= ROWS_AT_ONCE:
            yield group, False
            group, rows = [], 0
    yield group, True
