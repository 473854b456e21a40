"""From a path to its bytes: packing by content, limits, and files that are none."""

import gzip
import os
from collections.abc import Callable
from pathlib import Path

import pytest
import zstandard

from eol.errors import FeedFileError
from eol.feeds.unpack import Packing, content, open_source

Pack = Callable[[bytes], bytes]
ROWS = b"vin,result\nU1,pass\n" * 500


def unpacked(path: Path, max_bytes: int = 1_000_000) -> bytes:
    """Open a file and read it whole."""
    return content(open_source(path, max_bytes=max_bytes))


@pytest.mark.parametrize(
    ("data", "packing"),
    [
        (ROWS, Packing.PLAIN),
        (gzip.compress(ROWS, mtime=0), Packing.GZIP),
        (zstandard.compress(ROWS), Packing.ZSTD),
    ],
)
def test_packing_is_told_by_content_not_by_name(
    tmp_path: Path, data: bytes, packing: Packing
) -> None:
    """A file named .csv may be packed; its first bytes say how."""
    path = tmp_path / "water.csv"
    path.write_bytes(data)
    assert open_source(path, max_bytes=1_000_000).packing is packing
    assert unpacked(path) == ROWS


@pytest.mark.parametrize("pack", [gzip.compress, zstandard.compress])
def test_parts_packed_one_by_one_are_one_file(tmp_path: Path, pack: Pack) -> None:
    """A file appended to in packed pieces is read to its end."""
    path = tmp_path / "water.csv"
    path.write_bytes(pack(ROWS) + pack(b"U2,fail\n"))
    assert unpacked(path) == ROWS + b"U2,fail\n"


@pytest.mark.parametrize(("pack", "name"), [(gzip.compress, "gzip"), (zstandard.compress, "zstd")])
def test_a_packed_file_that_is_cut_off_is_refused_whole(
    tmp_path: Path, pack: Pack, name: str
) -> None:
    """Half a packed file is no shorter file: nothing of it is read."""
    path = tmp_path / "water.csv"
    path.write_bytes(pack(ROWS)[:-5])
    with pytest.raises(FeedFileError, match=f"the {name} data is cut off before its end"):
        unpacked(path)


@pytest.mark.parametrize(("pack", "at"), [(gzip.compress, 10), (zstandard.compress, 4)])
def test_a_damaged_packed_file_is_refused(tmp_path: Path, pack: Pack, at: int) -> None:
    """Damage behind the first bytes is told as such."""
    path = tmp_path / "water.csv"
    packed = bytearray(pack(ROWS))
    packed[at : at + 6] = b"\xff" * 6
    path.write_bytes(packed)
    with pytest.raises(FeedFileError, match="data is damaged"):
        unpacked(path)


@pytest.mark.parametrize("pack", [gzip.compress, zstandard.compress])
def test_a_small_file_that_unpacks_to_too_much_is_refused(tmp_path: Path, pack: Pack) -> None:
    """Unpacked, a file may hold twice the limit and no more."""
    path = tmp_path / "water.csv.gz"
    path.write_bytes(pack(b"0" * 30_000))
    with pytest.raises(FeedFileError, match="unpacks to more than 20,000"):
        unpacked(path, max_bytes=10_000)


def test_a_file_over_the_limit_is_refused_with_both_sizes(tmp_path: Path) -> None:
    """The message names the size, the limit, and the setting to change."""
    path = tmp_path / "water.csv"
    path.write_bytes(b"x" * 2000)
    with pytest.raises(FeedFileError, match=r"2,000 bytes, the limit is 1,999\n.*inbox.max_bytes"):
        open_source(path, max_bytes=1999)
    assert open_source(path, max_bytes=2000).size == 2000


def test_a_file_packed_twice_is_refused(tmp_path: Path) -> None:
    """One layer of packing is unpacked, not two."""
    path = tmp_path / "water.csv.gz"
    path.write_bytes(gzip.compress(gzip.compress(ROWS), mtime=0))
    with pytest.raises(FeedFileError, match="packed twice"):
        open_source(path, max_bytes=1_000_000)


@pytest.mark.parametrize("data", [b"", gzip.compress(b"", mtime=0)])
def test_an_empty_file_is_refused(tmp_path: Path, data: bytes) -> None:
    """A file without content says so, packed or not."""
    path = tmp_path / "water.csv"
    path.write_bytes(data)
    with pytest.raises(FeedFileError, match="the file is empty"):
        open_source(path, max_bytes=100)


def test_a_missing_file_is_told_with_its_path(tmp_path: Path) -> None:
    """The message says where it looked and what to see to."""
    with pytest.raises(FeedFileError, match=r"gone.csv: .*no such file.*\n.*share is mounted"):
        open_source(tmp_path / "gone.csv", max_bytes=100)


def test_a_folder_and_a_pipe_are_no_files(tmp_path: Path) -> None:
    """A folder is refused, and a pipe too: reading it would wait for ever."""
    os.mkfifo(tmp_path / "pipe.csv")
    with pytest.raises(FeedFileError, match="a folder, not a file"):
        open_source(tmp_path, max_bytes=100)
    with pytest.raises(FeedFileError, match="a device or pipe, not a file"):
        open_source(tmp_path / "pipe.csv", max_bytes=100)


@pytest.mark.parametrize("name", ["~$water.xlsx", ".~lock.water.xlsx#"])
def test_an_office_lock_file_is_named_as_one(tmp_path: Path, name: str) -> None:
    """The file that an office program lays beside an open table is no feed."""
    path = tmp_path / name
    path.write_bytes(b"Q. Brook")
    with pytest.raises(FeedFileError, match="lock file of an office program"):
        open_source(path, max_bytes=100)


def test_an_unreadable_share_is_a_feed_file_error(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A share that goes away while a file is read gives a message, not a crash."""
    path = tmp_path / "water.csv"
    path.write_bytes(ROWS)
    source = open_source(path, max_bytes=1_000_000)

    def fail(self: Path) -> bytes:
        raise OSError(112, "Host is down")

    monkeypatch.setattr(Path, "read_bytes", fail)
    with pytest.raises(FeedFileError, match="cannot be read: host is down"):
        content(source)
