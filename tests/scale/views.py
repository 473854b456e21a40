"""Each view over one shift, in a store of ten years and in one of three months.

python tests/scale/views.py [ROUNDS] [FOLDER]

FOLDER keeps the two stores for the next time. Views that a shift does not bound are printed apart: those
of 20 shifts, and those of what is open now.
"""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from history import LAST, begin, stores
from inside import Inside, took

from eol.sqlfiles import sql_files
from eol.store.connect import open_copy
from eol.store.database import Database

DAY, SHIFT = LAST - timedelta(days=4), "late"
APART = ("pareto_window", "fail_to_clear")
OPEN = ("as_of", "open_unit", "escape", "unproven", "safety_listed", "feed_status")


def main(rounds: int, place: Path) -> None:
    """Print one table of the least times over the rounds, the stores in turn."""
    best: dict[tuple[str, str], Inside] = {}
    folders = stores(place)
    for _ in range(rounds):
        for store, folder in folders.items():
            with open_copy(folder) as copy:
                for name in names(copy):
                    least = best.get((store, name))
                    now = read(copy, name)
                    if least is None or now.cpu < least.cpu:
                        best[store, name] = now
    print(f"views over {DAY}/{SHIFT}, least of {rounds} rounds: three months, ten years, ratio")
    for (store, name), recent in best.items():
        if store == "three months":
            line(name, recent, best["ten years", name])


def names(copy: Database) -> list[str]:
    """The views that a shift bounds, then those of 20 shifts, then those of what is open now or of a unit."""
    views = [file.name for file in sql_files("views")]
    bound = [name for name in views if bounded(copy, name)]
    return sorted(bound, key=lambda name: name in APART) + [v for v in views if v in OPEN]


def bounded(copy: Database, name: str) -> bool:
    """Tell whether a view is by shift."""
    return "production_date" in copy.connection.table(name).columns


def read(copy: Database, name: str) -> Inside:
    """Read a view for one shift, the second time of two; whole where no shift bounds it."""
    equals = {"production_date": DAY, "shift": SHIFT} if bounded(copy, name) else {}
    copy.view(name, **equals)
    return took(lambda: copy.view(name, **equals))


def line(name: str, recent: Inside, long: Inside) -> None:
    """A row of the table, in milliseconds."""
    print(
        f"{name:20} {recent.wall * 1000:8.1f} {long.wall * 1000:8.1f} ms wall   x{long.wall / recent.wall:.2f}"
        f"   {recent.cpu * 1000:8.1f} {long.cpu * 1000:8.1f} ms cpu   x{long.cpu / recent.cpu:.2f}"
    )


if __name__ == "__main__":
    begin(main, 5)
