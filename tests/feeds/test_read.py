"""Any file in, rows out; and whatever is done to a file, never a crash and no made-up row."""

import gzip
from collections.abc import Callable
from pathlib import Path
from random import Random

import polars as pl
import pytest
import zstandard
from mutations import MUTATIONS, Mutation

from eol.errors import FeedFileError
from eol.feeds.raw import RawFile, ReadOptions
from eol.feeds.read import read_file

HEADER = "vin,station,started_at,result,note\n"
NOTES = ("", "ok", "größer müßig", '"rear, left"', '"two\nlines"')
ROWS = [
    f"0ZZK{n:013d},W{n % 3},2026-09-08 10:{n:02d}:00,{'pass' if n % 4 else 'fail'},"
    for n in range(60)
]
FRAME = pl.DataFrame({"vin": [f"0ZZK{n:013d}" for n in range(60)], "pressure": range(60)})


def read(folder: Path, name: str, data: bytes) -> RawFile:
    """Write a file and read it."""
    (folder / name).write_bytes(data)
    return read_file(folder / name)


def cells(raw: RawFile) -> list[tuple[str | None, ...]]:
    """The rows without their numbers."""
    return raw.frame.drop("file_row").rows()


def tried(folder: Path, name: str, data: bytes) -> str:
    """The message with which a file is refused; empty where it is read."""
    try:
        read(folder, name, data)
    except FeedFileError as error:
        return str(error)
    return ""


def as_xlsx(frame: pl.DataFrame, path: Path) -> None:
    """Write a workbook."""
    frame.write_excel(path)


@pytest.mark.parametrize("pack", [bytes, gzip.compress, zstandard.compress])
@pytest.mark.parametrize(
    ("name", "write"),
    [
        ("w.csv", pl.DataFrame.write_csv),
        ("w.tsv", lambda frame, path: frame.write_csv(path, separator="\t")),
        ("w.jsonl", pl.DataFrame.write_ndjson),
        ("w.parquet", pl.DataFrame.write_parquet),
        ("w.xlsx", as_xlsx),
    ],
)
def test_five_kinds_three_packings_one_table(
    tmp_path: Path, name: str, write: Callable[..., None], pack: Callable[[bytes], bytes]
) -> None:
    """A table is the same in every kind of file and packing."""
    write(FRAME, tmp_path / name)
    (tmp_path / name).write_bytes(pack((tmp_path / name).read_bytes()))
    frame = read_file(tmp_path / name).frame.cast({"pressure": pl.Int64})
    assert frame.rows() == [(*row, n) for n, row in enumerate(FRAME.rows(), start=1)]


def test_the_options_reach_the_reader(tmp_path: Path) -> None:
    """Delimiter, encoding and limit are the feed's."""
    path = tmp_path / "w.csv"
    path.write_bytes("a^b\n1^ä\n".encode("cp850"))
    raw = read_file(path, ReadOptions(delimiter="^", encoding="cp850"))
    assert raw.frame.rows() == [("1", "ä", 1)]
    with pytest.raises(FeedFileError, match="the limit is 5"):
        read_file(path, ReadOptions(max_bytes=5))


def test_the_same_content_reads_the_same_under_any_name(tmp_path: Path) -> None:
    """What is read hangs on the content, not on name or time."""
    first = read(tmp_path, "a.csv", b"vin\nU1\n")
    second = read(tmp_path, "b.2026.csv.gz", b"vin\nU1\n")
    assert first.frame.equals(second.frame)
    assert first.notes == second.notes


@pytest.mark.parametrize("notes", [NOTES[:3], NOTES[:4]])
@pytest.mark.parametrize("mutation", MUTATIONS, ids=lambda mutation: mutation.__name__)
def test_a_damaged_csv_keeps_its_good_rows(
    tmp_path: Path, mutation: Mutation, notes: tuple[str, ...]
) -> None:
    """Only rows that the damage touches are lost or changed, and every row is accounted for."""
    lines = [f"{row}{notes[n % len(notes)]}\n" for n, row in enumerate(ROWS)]
    content = (HEADER + "".join(lines)).encode()
    whole = set(cells(read(tmp_path, "w.csv", content)))
    for seed in range(40):
        damaged, touched = mutation(content, len(HEADER), Random(seed))
        raw = read(tmp_path, "w.csv", damaged)
        rows = cells(raw)
        assert len(whole - set(rows)) <= touched
        assert sum(row not in whole for row in rows) <= touched
        numbers = sorted([*raw.frame["file_row"], *raw.refused["file_row"]])
        assert numbers == list(range(1, len(numbers) + 1))


@pytest.mark.parametrize("name", ["w.csv", "w.jsonl", "w.xlsx", "w.csv.gz", "w.csv.zst"])
def test_a_damaged_file_gives_rows_or_a_message(tmp_path: Path, name: str) -> None:
    """Whatever the bytes are, the answer is a frame or a FeedFileError with what and where."""
    write = {"csv": FRAME.write_csv, "jsonl": FRAME.write_ndjson, "xlsx": FRAME.write_excel}
    _, kind, *packing = name.split(".")
    write[kind](tmp_path / f"whole.{kind}")
    pack = {"gz": gzip.compress, "zst": zstandard.compress}.get("".join(packing), bytes)
    content = pack((tmp_path / f"whole.{kind}").read_bytes())
    for seed in range(60):
        chance = Random(seed)
        damaged, _ = chance.choice(MUTATIONS[:3])(content, 0, chance)
        message = tried(tmp_path, name, damaged)
        assert not message or (message.startswith(str(tmp_path / name)) and "\n  " in message)


@pytest.mark.parametrize("cut", range(4, 900, 60))
def test_a_parquet_file_cut_anywhere_is_refused(tmp_path: Path, cut: int) -> None:
    """Half a Parquet file loads nothing."""
    FRAME.write_parquet(tmp_path / "whole")
    with pytest.raises(FeedFileError, match="Parquet file is damaged or cut off"):
        read(tmp_path, "w.parquet", (tmp_path / "whole").read_bytes()[:cut])
