"""The same files as CSV and as Parquet: what reading text adds to a load, against polars' own read of the text.

python tests/scale/text_files.py [DAYS] [ROUNDS]
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from datetime import date
from pathlib import Path

import polars as pl
from made_plant import PLANT, write_plant
from measured import Measure, line, measure, median

from eol.plant.folder import init_folder

FIRST = date(2025, 1, 1)
READ = "import sys, polars; [polars.read_csv(path, try_parse_dates=True) for path in sys.argv[1:]]"
NOTHING = "import polars"


def main(days: int, rounds: int) -> None:
    """Print one table of medians over the rounds; the commands run in turn."""
    place = Path(tempfile.mkdtemp(prefix="eol-scale-"))
    try:
        paths = write_plant(place / "files", FIRST, days)
        texts = [as_text(path) for path in paths]
        found: dict[str, list[Measure]] = {}
        for number in range(rounds):
            for name, files in (("Parquet", paths), ("CSV", texts)):
                plant = init_folder(place / f"{name}{number}", name="Q", starts_on=FIRST)
                plant.toml.write_text(PLANT.format(first=FIRST), encoding="utf-8")
                took = measure("-m", "eol", "--plant", plant.root, "ingest", *files)
                found.setdefault(f"eol ingest, {name}", []).append(took)
            found.setdefault("polars reads CSV", []).append(measure("-c", READ, *texts))
            found.setdefault("polars reads nothing", []).append(measure("-c", NOTHING))
        print(f"{days} days, {sum(path.stat().st_size for path in texts) / 1e6:.0f} MB of CSV")
        middle = {name: median(measures) for name, measures in found.items()}
        for name, took in middle.items():
            print(line(name, took, middle["eol ingest, Parquet"]))
        read = middle["polars reads CSV"].wall - middle["polars reads nothing"].wall
        whole = read + middle["eol ingest, Parquet"].wall
        print(f"CSV to (polars' read + Parquet): x{middle['eol ingest, CSV'].wall / whole:.2f}")
    finally:
        shutil.rmtree(place)


def as_text(path: Path) -> Path:
    """Write a Parquet file as CSV beside it."""
    text = path.with_suffix(".csv")
    pl.read_parquet(path).write_csv(text, datetime_format="%Y-%m-%dT%H:%M:%S%z")
    return text


if __name__ == "__main__":
    main(*(int(word) for word in (*sys.argv[1:], *("91", "3")[len(sys.argv) - 1 :])))
