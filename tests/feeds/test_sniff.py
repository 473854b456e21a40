"""Which kind a file is of."""

import gzip
from pathlib import Path

import pytest

from eol.errors import FeedFileError
from eol.feeds.sniff import FileKind, file_kind


def written(folder: Path, name: str, data: bytes) -> Path:
    """Write a file and return its path."""
    (folder / name).write_bytes(data)
    return folder / name


@pytest.mark.parametrize(
    ("name", "data", "kind"),
    [
        ("water.csv", b"vin\n", FileKind.CSV),
        ("WATER.CSV", b"vin\n", FileKind.CSV),
        ("water.2026.tsv", b"vin\n", FileKind.TSV),
        ("water.jsonl", b"{}\n", FileKind.JSON_LINES),
        ("water.ndjson", b"{}\n", FileKind.JSON_LINES),
        ("water.parquet", b"PAR1....", FileKind.PARQUET),
        ("water.xlsx", b"PK\x03\x04....", FileKind.XLSX),
    ],
)
def test_the_suffix_tells_the_kind(tmp_path: Path, name: str, data: bytes, kind: FileKind) -> None:
    """Each known suffix stands for one kind, in any case."""
    assert file_kind(written(tmp_path, name, data)) is kind


def test_the_suffix_of_packing_is_looked_through(tmp_path: Path) -> None:
    """`.csv.gz` is a CSV file, and `.parquet.gz` is told by what is inside."""
    assert (
        file_kind(written(tmp_path, "w.csv.gz", gzip.compress(b"vin\n", mtime=0))) is FileKind.CSV
    )
    packed = written(tmp_path, "w.parquet.gz", gzip.compress(b"PAR1....", mtime=0))
    assert file_kind(packed) is FileKind.PARQUET


@pytest.mark.parametrize(
    ("data", "kind"),
    [
        (b"vin;result\n", FileKind.CSV),
        (b'\xef\xbb\xbf {"vin": "U1"}\n', FileKind.JSON_LINES),
        (b"PAR1....", FileKind.PARQUET),
        (b"PK\x03\x04....", FileKind.XLSX),
    ],
)
def test_without_a_known_suffix_the_content_tells_the_kind(
    tmp_path: Path, data: bytes, kind: FileKind
) -> None:
    """Benches write `.txt`, `.dat` or no suffix at all."""
    assert file_kind(written(tmp_path, "water.dat", data)) is kind
    assert file_kind(written(tmp_path, "water", data)) is kind


@pytest.mark.parametrize(
    ("name", "data", "words"),
    [
        ("w.csv", b"PAR1....", "named like CSV, but its content is Parquet"),
        ("w.csv", b"PK\x03\x04", "named like CSV, but its content is an XLSX workbook"),
        ("w.parquet", b"vin,result\n", "named like Parquet, but its content is not Parquet"),
        ("w.xlsx", b"vin,result\n", "named like XLSX, but its content is not XLSX"),
        ("w.xlsx", b"\xd0\xcf\x11\xe0....", "an old or password-protected office document"),
        ("w.csv", b"%PDF-1.7", "no table but a PDF document"),
    ],
)
def test_content_that_contradicts_the_suffix_is_told(
    tmp_path: Path, name: str, data: bytes, words: str
) -> None:
    """The message says what the name claims, what is inside, and what can be sent."""
    with pytest.raises(FeedFileError, match=rf"{words}(.|\n)*Send CSV, TSV, JSON lines"):
        file_kind(written(tmp_path, name, data))
