"""One shift of 1,200 units into a store of ten years and into one of three months, the published copy apart.

python tests/scale/shift.py [ROUNDS] [FOLDER]

FOLDER keeps the two stores for the next time. A round loads the shift into a fresh copy of each store,
once with its units told before (the schedule), once with every VIN unknown.
"""

from __future__ import annotations

import shutil
from pathlib import Path

from history import DAYS, LAST, begin, stores
from inside import Inside, inside, middle
from made_plant import UNITS_A_DAY, month_frames

from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder

READINGS = 58
"""So many more a water run, beside its two conditions: 75,000 in a shift."""


def main(rounds: int, place: Path) -> None:
    """Print one table of medians; the loads take turns."""
    files = shift_files(place / "shift")
    units, tests = files[:1], files[1:]
    found: dict[tuple[str, str], list[Inside]] = {}
    for _ in range(rounds):
        for name, folder in stores(place).items():
            for known in (True, False):
                copy = PlantFolder(shutil.copytree(folder.root, place / "copy"))
                if known:
                    ingest(copy, units)
                took = inside("load", copy.root, *tests)
                found.setdefault((name, "VINs known" if known else "VINs unknown"), []).append(took)
                shutil.rmtree(copy.root)
    print(f"one shift, {UNITS_A_DAY} units, {rounds} rounds, published copy apart")
    for (name, known), took in found.items():
        yardstick = middle(found["three months", known])
        print(middle(took).line(f"{name}, {known}", yardstick))


def shift_files(place: Path) -> list[Path]:
    """The files of the day after the history: units first, then the tests and their readings."""
    place.mkdir(parents=True, exist_ok=True)
    paths = []
    for feed, frame in month_frames(LAST, DAYS, 1, readings=READINGS):
        path = place / f"{feed}_{LAST:%Y-%m-%d}.parquet"
        frame.write_parquet(path, compression="zstd")
        paths.append(path)
    return paths


if __name__ == "__main__":
    begin(main, 5)
