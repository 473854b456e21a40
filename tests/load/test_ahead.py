"""Files read ahead of the writer: in the order of their time, faults told in their place, groups bounded."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import builders as b
import polars as pl
import pytest

from eol.errors import FeedFileError
from eol.feeds.batch import FileBatch
from eol.load import ahead
from eol.load.ahead import ReadAhead, grouped, in_time_order
from eol.load.outcome import FileOutcome


def batch(path: Path, runs: int, readings: int = 0) -> FileBatch:
    """A file with so many rows of two tables; of a wide one each row has a run and its readings."""
    tables = {
        name: pl.DataFrame({"file_row": range(rows)})
        for name, rows in (("run", runs), ("reading", readings))
    }
    none = pl.DataFrame()
    return FileBatch(
        "water", "test", "water", runs, tables, none, none, (), path, path.stem, 1, b.MADE_AT
    )


def gave(path: Path) -> FileBatch:
    """What stands for a read file here."""
    if path.stem == "bad":
        raise FeedFileError("no such thing", where=path.name)
    return batch(path, int(path.stem))


def test_files_of_one_time_are_neighbours() -> None:
    """Numbers in the name come before the feed, so that a unit's files meet in one group."""
    names = ["units_2026-02", "water_2026-01", "units_2026-01", "zones"]
    ordered = in_time_order(Path(name + ".csv") for name in names)
    assert [path.stem for path in ordered] == [
        "zones",
        "units_2026-01",
        "water_2026-01",
        "units_2026-02",
    ]


def test_order_and_faults_are_kept() -> None:
    """A file that cannot be read is told in its place; the others go on."""
    told: list[int] = []
    paths = [Path("1"), Path("bad"), Path("2")]
    with ReadAhead(gave, lambda _, number, total: told.append(number * 10 + total)) as read:
        read.begin(paths)
        states = [file.state if isinstance(file, FileOutcome) else file.rows for file in read]
    assert states == [1, "refused", 2]
    assert told == [13, 23, 33]


def test_reading_rests_and_ends(monkeypatch: pytest.MonkeyPatch) -> None:
    """With a group's rows in hand no further file is read; what nobody takes is not read at the end either."""
    monkeypatch.setattr(ahead, "ROWS_AT_ONCE", 3)
    begun: list[Path] = []

    def read_one(path: Path) -> FileBatch:
        begun.append(path)
        return batch(path, 3)

    paths = [Path(str(number)) for number in range(9)]
    with ReadAhead(read_one) as read:
        read.begin(paths)
        assert next(iter(read)).path == paths[0]
    assert len(begun) <= 1 + ahead.READERS


def test_next_file_is_read_without_room(monkeypatch: pytest.MonkeyPatch) -> None:
    """Later files that fill the room never keep the one that is waited for out."""
    monkeypatch.setattr(ahead, "ROWS_AT_ONCE", 0)
    with ReadAhead(gave) as read, ThreadPoolExecutor(1) as taker:
        read.begin([Path(str(number)) for number in range(1, 9)])
        taken = taker.submit(list, read).result(timeout=60)
    assert [file.rows for file in taken] == list(range(1, 9))


def test_groups_are_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    """A full group takes no file of another time, one twice as full takes none; the last may be empty."""
    monkeypatch.setattr(ahead, "ROWS_AT_ONCE", 5)
    monkeypatch.setattr(ahead, "ROWS_AT_MOST", 9)
    files = [
        batch(Path(f"{feed}_{day}.csv"), rows)
        for day, feed, rows in (
            *((1, "units", 3), (1, "water", 2), (1, "track", 1)),
            *((2, "units", 4),),
            *((3, "units", 5), (3, "water", 4), (3, "track", 1)),
        )
    ]
    groups = [([file.rows for file in group], last) for group, last in grouped(files)]
    assert groups == [([3, 2, 1], False), ([4, 5], False), ([4, 1], True)]
    assert list(grouped([])) == [([], True)]


def test_wide_readings_fill_a_group(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a group holds in memory counts, not the rows of its files."""
    monkeypatch.setattr(ahead, "ROWS_AT_ONCE", 5)
    files = [batch(Path(f"water_{day}.csv"), 1, readings=9) for day in (1, 2)]
    assert [len(group) for group, _ in grouped(files)] == [1, 1]


def test_refused_rows_fill_a_group(monkeypatch: pytest.MonkeyPatch) -> None:
    """Rows that are kept as they came take memory too."""
    monkeypatch.setattr(ahead, "ROWS_AT_ONCE", 5)
    refused = pl.DataFrame({"file_row": range(9)})
    files = [replace(batch(Path(f"water_{day}.csv"), 0), rejected=refused) for day in (1, 2)]
    assert [len(group) for group, _ in grouped(files)] == [1, 1]
