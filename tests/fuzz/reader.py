"""Fuzzes the reading of files, guided by what the code does: `python tests/fuzz/reader.py -runs=10000 FOLDER`.

FOLDER holds files to begin with and gets those that reached new code; the options are libFuzzer's. The
bytes make a file of one of the kinds; it may be refused, but nothing else may be raised, and every row
of it is accepted or rejected, once.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

KINDS = ("csv", "tsv", "jsonl", "csv.gz", "csv.zst", "xlsx", "parquet")
FEEDS = ("water", "water_findings", "water_readings", "units", "repairs", "defect_codes", "shifts")
NOW = datetime(2026, 11, 25, tzinfo=UTC)
PLANT = """
[plant]
name = "Quillbrook"
timezone = "Europe/Berlin"
starts_on = 2026-01-01
[[shift]]
name = "day"
starts = "06:00"
ends = "14:30"
[test.water]
[[test.water.condition]]
name = "pressure_kpa"
measure_unit = "kPa"
[inbox]
max_bytes = 1_000_000
"""


def try_bytes(folder: Path) -> Callable[[bytes], None]:
    """Return what takes the first two bytes for feed and kind, the others for the file."""
    # Imported here, where main has the code watched as it is loaded.
    from eol.errors import FeedFileError
    from eol.feeds.parse import parse_file
    from eol.plant.settings import parse_settings

    settings = parse_settings(PLANT)

    def one(content: bytes) -> None:
        if len(content) < 2:
            return
        feed, kind = FEEDS[content[0] % len(FEEDS)], KINDS[content[1] % len(KINDS)]
        path = folder / f"{feed}.{kind}"
        path.write_bytes(content[2:])
        try:
            batch = parse_file(path, settings, now=NOW, pseudonym=lambda person: "p-0000000000")
        except FeedFileError:
            return
        hold_rows_accounted_for(batch)

    return one


def hold_rows_accounted_for(batch: Any) -> None:
    """No row is both accepted and rejected, none is made up, and each rejected one says why."""
    rejected = batch.rejected["file_row"].to_list()
    accepted = {row for table in batch.tables.values() for row in table["file_row"]}
    assert len(rejected) == len(set(rejected))
    assert not accepted & set(rejected)
    assert all(1 <= row <= batch.rows for row in accepted | set(rejected))
    assert batch.rejected["reason"].null_count() == 0


def main() -> None:
    """Fuzz until the options say stop."""
    import atheris

    with tempfile.TemporaryDirectory() as folder:
        with atheris.instrument_imports(include=["eol.feeds"]):
            target = try_bytes(Path(folder))
        atheris.Setup(sys.argv, target)
        atheris.Fuzz()


if __name__ == "__main__":
    main()
