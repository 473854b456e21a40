"""A year loads: with every check, stamp and the published copy, against plain scripts over the same files.

python tests/scale/year.py [DAYS] [ROUNDS]
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from datetime import date
from pathlib import Path

from made_plant import PLANT, write_plant
from measured import line, measure, median

from eol.plant.folder import init_folder

FIRST = date(2025, 1, 1)
HERE = Path(__file__).parent


def main(days: int, rounds: int) -> None:
    """Print one table of medians over the rounds; the commands run in turn."""
    place = Path(tempfile.mkdtemp(prefix="eol-scale-"))
    try:
        paths = write_plant(place / "files", FIRST, days)
        tests = [path for path in paths if not path.name.startswith("units")]
        found: dict[str, list] = {
            "plain pandas": [],
            "eol ingest": [],
            "bare DuckDB": [],
            "plain polars": [],
        }
        for number in range(rounds):
            found["plain pandas"].append(measure(HERE / "plain_pandas.py", place / "files"))
            plant = init_folder(place / f"plant{number}", name="Quillbrook", starts_on=FIRST)
            plant.toml.write_text(PLANT.format(first=FIRST), encoding="utf-8")
            found["eol ingest"].append(
                measure("-m", "eol", "--plant", plant.root, "ingest", *paths)
            )
            found["bare DuckDB"].append(measure(HERE / "bare_duckdb.py", *tests))
            found["plain polars"].append(measure(HERE / "plain_polars.py", place / "files"))
        print(
            f"{days} days, {sum(p.stat().st_size for p in paths) / 1e6:.0f} MB"
            f" in {len(paths)} files, {rounds} rounds"
        )
        yardstick = median(found["plain pandas"])
        for name, measures in found.items():
            print(line(name, median(measures), yardstick))
    finally:
        shutil.rmtree(place)


if __name__ == "__main__":
    main(*(int(word) for word in (*sys.argv[1:], *("365", "3")[len(sys.argv) - 1 :])))
