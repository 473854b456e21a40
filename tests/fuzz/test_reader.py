"""The reader under a fuzzer that is guided by which code a file reaches; its program is reader.py."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from sound_files import TABLES, written

RUNS, SECONDS = 20_000, 600
FEEDS = ("water", "water_findings", "water_readings", "units", "repairs")
KINDS = ("csv", "tsv", "jsonl", "csv.gz", "csv.zst", "xlsx", "parquet")
"""In the order in which reader.py counts them."""


def seeds(folder: Path) -> Path:
    """A small sound file of every feed and kind, and one with odd names, to begin with."""
    folder.mkdir()
    for feed_number, feed in enumerate(FEEDS):
        for kind_number, kind in enumerate(KINDS):
            content = bytes([feed_number, kind_number]) + written(TABLES[feed].head(4), kind)
            (folder / f"{feed}.{kind}").write_bytes(content)
    odd = TABLES["units"].head(4).rename({"roof": "*", "kind": "^.*$"})
    (folder / "odd.csv").write_bytes(bytes([FEEDS.index("units"), 0]) + written(odd, "csv"))
    return folder


@pytest.mark.slow
def test_no_file_breaks_the_reader(tmp_path: Path) -> None:
    """Whatever the bytes are, a file is refused or each of its rows is accepted or rejected, once."""
    program = Path(__file__).with_name("reader.py")
    options = [f"-runs={RUNS}", f"-max_total_time={SECONDS}", "-seed=1", "-max_len=16384"]
    done = subprocess.run(
        [
            sys.executable,
            program,
            *options,
            f"-artifact_prefix={tmp_path}/",
            seeds(tmp_path / "seeds"),
        ],
        capture_output=True,
        text=True,
        timeout=2 * SECONDS,
        check=False,
    )
    assert done.returncode == 0, done.stdout[-2000:] + done.stderr[-2000:]
    assert "Done " in done.stdout + done.stderr
