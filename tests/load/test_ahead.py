"""Files read ahead of the writer: in the order of their time, faults told in their place, groups bounded."""

from __future__ import annotations

from pathlib import Path

import pytest

from eol.errors import FeedFileError
from eol.load import ahead
from eol.load.ahead import grouped, in_time_order, read_ahead
from eol.load.outcome import FileOutcome


def gave(path: Path) -> FileOutcome:
    """What stands for a read file here."""
    if path.stem == "bad":
        raise FeedFileError("no such thing", where=path.name)
    return FileOutcome(path, "loaded", rows=int(path.stem))


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
    read = read_ahead(paths, gave, lambda _, number, total: told.append(number * 10 + total))  # type: ignore[arg-type]
    assert [file.state for file in read if isinstance(file, FileOutcome)] == [
        "loaded",
        "refused",
        "loaded",
    ]
    assert told == [13, 23, 33]


def test_groups_are_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    """A full group takes no file of another time, one twice as full takes none; the last may be empty."""
    monkeypatch.setattr(ahead, "ROWS_AT_ONCE", 5)
    monkeypatch.setattr(ahead, "ROWS_AT_MOST", 9)
    files = [
        FileOutcome(Path(f"{feed}_{day}.csv"), "loaded", rows=rows)
        for day, feed, rows in (
            *((1, "units", 3), (1, "water", 2), (1, "track", 1)),
            *((2, "units", 4),),
            *((3, "units", 5), (3, "water", 4), (3, "track", 1)),
        )
    ]
    groups = [([file.rows for file in group], last) for group, last in grouped(files)]
    assert groups == [([3, 2, 1], False), ([4, 5], False), ([4, 1], True)]
    assert list(grouped([])) == [([], True)]
