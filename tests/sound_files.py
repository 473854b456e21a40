"""Sound files of several feeds in every kind, for the tests that damage them."""

from __future__ import annotations

import gzip
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from io import BytesIO

import polars as pl
import zstandard

ROWS = 40
KINDS = ("csv", "tsv", "jsonl", "parquet", "xlsx", "csv.gz", "csv.zst")
"""How a file may be written and packed, by the ending of its name."""

_START = datetime(2026, 9, 8, 4, tzinfo=UTC)
_VINS = [f"0ZZK{number:013d}" for number in range(ROWS)]
_TIMES = [_START + timedelta(minutes=5 * number) for number in range(ROWS)]


def _every(step: int, word: str) -> list[str | None]:
    return [word if number % step == 0 else None for number in range(ROWS)]


TABLES: dict[str, pl.DataFrame] = {
    "water": pl.DataFrame(
        {
            "vin": _VINS,
            "station": [f"W{number % 3}" for number in range(ROWS)],
            "bay": ["A", "B"] * (ROWS // 2),
            "started_at": _TIMES,
            "ended_at": [at + timedelta(minutes=4) for at in _TIMES],
            "result": ["fail" if number % 4 == 0 else "pass" for number in range(ROWS)],
            "operator": ["Ann", "Bob"] * (ROWS // 2),
            "code": _every(4, "LEAK"),
            "zone": _every(4, "hinten, über dem Rücklicht"),
            "quantity": [2 if number % 4 == 0 else None for number in range(ROWS)],
            "note": _every(8, 'two "words"'),
            "pressure_kpa": [240 + number % 5 for number in range(ROWS)],
        }
    ),
    "water_findings": pl.DataFrame(
        {
            "vin": _VINS,
            "station": "W1",
            "started_at": _TIMES,
            "code": ["LEAK", "HISS"] * (ROWS // 2),
            "step": ["front", None] * (ROWS // 2),
            "severity": ["A", "C"] * (ROWS // 2),
        }
    ),
    "water_readings": pl.DataFrame(
        {
            "vin": _VINS,
            "station": "W1",
            "started_at": _TIMES,
            "name": "volts",
            "value": [12 + number / 8 for number in range(ROWS)],
            "measure_unit": "V",
        }
    ),
    "units": pl.DataFrame(
        {
            "vin": _VINS,
            "build_seq": range(1, ROWS + 1),
            "model": ["WAG", "VAN"] * (ROWS // 2),
            "kind": "production",
            "line_off_at": _TIMES,
            "roof": ["fixed", "opening"] * (ROWS // 2),
        }
    ),
    "repairs": pl.DataFrame(
        {
            "vin": _VINS,
            "test": "water",
            "code": "LEAK",
            "ended_at": _TIMES,
            "class": ["repaired", "none"] * (ROWS // 2),
            "action": "abgedichtet",
        }
    ),
}
"""By feed a table in the tool's own columns, each row of it sound."""


def written(frame: pl.DataFrame, kind: str) -> bytes:
    """Return a table as the bytes of a file."""
    plain, packing = kind.partition(".")[::2]
    return packed(_WRITERS[plain](frame), packing)


def packed(content: bytes, packing: str) -> bytes:
    """Pack bytes as gz or zst, with a check sum; as they are where there is no packing."""
    if packing == "gz":
        return gzip.compress(content, mtime=0)
    return zstandard.ZstdCompressor(write_checksum=True).compress(content) if packing else content


def _csv(frame: pl.DataFrame) -> bytes:
    return frame.write_csv(datetime_format="%Y-%m-%dT%H:%M:%SZ").encode()


def _tsv(frame: pl.DataFrame) -> bytes:
    return frame.write_csv(separator="\t", datetime_format="%Y-%m-%dT%H:%M:%SZ").encode()


def _xlsx(frame: pl.DataFrame) -> bytes:
    file = BytesIO()
    times = [name for name, dtype in frame.schema.items() if dtype.is_temporal()]
    frame.with_columns(pl.col(times).dt.to_string("%Y-%m-%dT%H:%M:%SZ")).write_excel(file)
    return file.getvalue()


def _parquet(frame: pl.DataFrame) -> bytes:
    file = BytesIO()
    frame.write_parquet(file)
    return file.getvalue()


_WRITERS: dict[str, Callable[[pl.DataFrame], bytes]] = {
    "csv": _csv,
    "tsv": _tsv,
    "jsonl": lambda frame: frame.write_ndjson().encode(),
    "parquet": _parquet,
    "xlsx": _xlsx,
}
