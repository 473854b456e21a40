"""A thousand damaged files through all of reading, mapping and checking, with a plant's settings.

None ends in anything but rows or a refusal; no row is accepted that the sound file did not hold, and
its other rows are all there.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import polars as pl
import pytest
from damaged_files import Damaged, damaged_file
from feed_rows import NOW, plant, pseudonym
from sound_files import ROWS, TABLES, written

from eol.errors import FeedFileError
from eol.feeds.batch import FileBatch
from eol.feeds.parse import parse_file

FILES, AT_ONCE, PLAIN = 1000, 50, 200
SETTINGS = plant()
Rows = dict[str, set[tuple[Any, ...]]]


def parsed(folder: Path, feed: str, kind: str, content: bytes) -> FileBatch:
    """A file, parsed."""
    path = folder / f"{feed}_1.{kind}"
    path.write_bytes(content)
    return parse_file(path, SETTINGS, now=NOW, pseudonym=pseudonym)


def accepted(batch: FileBatch) -> Rows:
    """By table the rows accepted, without their numbers."""
    return {name: set(frame.drop("file_row").rows()) for name, frame in batch.tables.items()}


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Rows]:
    """By feed what its sound file holds."""
    folder = tmp_path_factory.mktemp("sound")
    return {f: accepted(parsed(folder, f, "csv", written(t, "csv"))) for f, t in TABLES.items()}


@pytest.mark.parametrize(
    "first",
    [
        pytest.param(n, marks=[pytest.mark.slow] if n >= PLAIN else [])
        for n in range(0, FILES, AT_ONCE)
    ],
)
def test_damaged_files(tmp_path: Path, sound: Mapping[str, Rows], first: int) -> None:
    """Each file gives its rows, but for those that were touched, or says why it cannot be used."""
    files = {seed: damaged_file(seed) for seed in range(first, first + AT_ONCE)}
    faults = {seed: faults_of(tmp_path, file, sound[file.feed]) for seed, file in files.items()}
    assert {(seed, files[seed].how, *found) for seed, found in faults.items() if found} == set()


def faults_of(folder: Path, file: Damaged, sound: Rows) -> list[str]:
    """What is wrong with the way a damaged file was taken."""
    try:
        batch = parsed(folder, file.feed, file.kind, file.content)
    except FeedFileError as error:
        some_are_whole = file.touched is not None and file.touched < ROWS
        return [f"refused whole: {error}"] if some_are_whole else []
    return [*numbering_faults(batch), *row_faults(file, sound, accepted(batch))]


def numbering_faults(batch: FileBatch) -> list[str]:
    """What is wrong with the account of rows: each is accepted or rejected, once."""
    rejected = batch.rejected["file_row"].to_list()
    taken = {row for table in batch.tables.values() for row in table["file_row"]}
    wrong = {
        "rejected twice": len(rejected) != len(set(rejected)),
        "accepted and rejected": bool(taken & set(rejected)),
        "made up": not taken | set(rejected) <= set(range(1, batch.rows + 1)),
    }
    return [what for what, is_so in wrong.items() if is_so]


def row_faults(file: Damaged, sound: Rows, told: Rows) -> list[str]:
    """What is told that the sound file did not hold, and what is lost of it, beyond what was touched."""
    if file.unchecked:
        return []
    touched = ROWS if file.touched is None else file.touched
    faults = []
    for table, rows in told.items():
        if table == "attribute" and file.gaps:
            continue  # The header names attributes, so a damaged one names others.
        held = sound[table]
        strange = [row for row in rows - held if not (file.gaps and has_gaps_of(row, held))]
        most = 0 if file.touched is None else touched
        if len(strange) > most:
            faults.append(f"{table}: not held before: {strange[:2]}")
        if not file.gaps and len(held - rows) > touched:
            faults.append(f"{table}: lost {len(held - rows)}")
    return faults


def has_gaps_of(row: tuple[Any, ...], held: set[tuple[Any, ...]]) -> bool:
    """Tell whether a row is one that was held, some of its cells left out."""
    return any(all(a is None or a == b for a, b in zip(row, one, strict=True)) for one in held)


@pytest.mark.slow
def test_each_way_of_damage_comes_often() -> None:
    """The thousand files hold every way of damage and every kind of file many times over."""
    files = [damaged_file(seed) for seed in range(FILES)]
    counts = pl.DataFrame({"kind": [f.kind for f in files], "feed": [f.feed for f in files]})
    for name in ("kind", "feed"):
        assert counts.group_by(name).len()["len"].min() > 40
    ways = {file.how.split(" ")[0] for file in files}
    assert {"flipped", "recoded", "header", "cut", "bytes", "without", "columns", "vin"} <= ways
