"""Parquet with its own types."""

from datetime import UTC, datetime
from pathlib import Path

import polars as pl
import pytest

from eol.errors import FeedFileError
from eol.feeds.read_parquet import read_parquet

FRAME = pl.DataFrame(
    {"vin": ["U1", None], "pressure": [250.5, None], "at": [datetime(2026, 9, 8, tzinfo=UTC)] * 2}
)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A small Parquet file."""
    FRAME.write_parquet(tmp_path / "w.parquet")
    return tmp_path / "w.parquet"


def test_types_are_kept(path: Path) -> None:
    """Numbers and times come as such; nothing is refused and nothing noted."""
    raw = read_parquet(path, where="w", limit=1_000_000)
    assert raw.frame.drop("file_row").equals(FRAME)
    assert raw.frame["file_row"].to_list() == [1, 2]
    assert (raw.refused.height, raw.notes) == (0, ())


def test_bytes_are_read_like_a_file(path: Path) -> None:
    """A file that lay packed comes as bytes."""
    raw = read_parquet(path.read_bytes(), where="w", limit=1_000_000)
    assert raw.frame.drop("file_row").equals(FRAME)


def test_a_name_with_pattern_letters_is_one_file(path: Path) -> None:
    """A star or bracket in a name reads that file and no other."""
    starred = path.rename(path.with_name("w[1]*.parquet"))
    assert read_parquet(starred, where="w", limit=1_000_000).frame.height == 2


@pytest.mark.parametrize("keep", [slice(0, -1), slice(0, 40), slice(0, 4)])
def test_a_file_cut_off_is_refused(path: Path, keep: slice) -> None:
    """The footer stands at the end, so half a file is none."""
    with pytest.raises(FeedFileError, match="Parquet file is damaged or cut off"):
        read_parquet(path.read_bytes()[keep], where="w", limit=1_000_000)


def test_a_small_file_that_unpacks_to_too_much_is_refused(tmp_path: Path) -> None:
    """A million equal values take no room in the file, but in memory."""
    path = tmp_path / "w.parquet"
    pl.DataFrame({"a": pl.repeat(1, 1_000_000, eager=True)}).write_parquet(path)
    with pytest.raises(FeedFileError, match="unpacks to 4,000,000 bytes, the limit is 100,000"):
        read_parquet(path, where="w", limit=100_000)
