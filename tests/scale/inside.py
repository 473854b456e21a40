"""Measures a piece of work inside a process of its own, its imports and what is told apart left out.

Called as `python inside.py WORK PLANT WORD…`; prints wall and processor seconds.
"""

from __future__ import annotations

import resource
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from measured import measure

from eol.load import ingest as loading
from eol.plant.folder import PlantFolder


@dataclass(frozen=True)
class Inside:
    """Wall and processor seconds of a piece of work."""

    wall: float
    cpu: float

    def line(self, name: str, yardstick: Inside) -> str:
        """A row of the table: seconds, and both as ratios to a yardstick of the same run."""
        return (
            f"{name:44} {self.wall:7.3f} s wall {self.cpu:7.3f} s cpu"
            f"   x{self.wall / yardstick.wall:.2f} wall  x{self.cpu / yardstick.cpu:.2f} cpu"
        )


def inside(*words: str | Path) -> Inside:
    """Do the work in a process of its own."""
    said = measure(__file__, *words).said.splitlines()[-1]
    return Inside(*(float(word) for word in said.split()))


def middle(measures: list[Inside]) -> Inside:
    """The measure whose processor time is the middle one: other processes disturb it least."""
    return sorted(measures, key=lambda one: one.cpu)[len(measures) // 2]


def clock() -> Inside:
    """The time since the start of the process."""
    used = resource.getrusage(resource.RUSAGE_SELF)
    return Inside(time.perf_counter(), used.ru_utime + used.ru_stime)


def load(plant: PlantFolder, *files: str) -> Inside:
    """Load files; the copy that is published is left out."""
    loading.publish = lambda _: None  # type: ignore[assignment]
    return took(lambda: loading.ingest(plant, [Path(file) for file in files]))


def took(work: Callable[[], object]) -> Inside:
    """Do the work and measure it."""
    before = clock()
    work()
    after = clock()
    return Inside(after.wall - before.wall, after.cpu - before.cpu)


WORK: dict[str, Callable[..., Inside]] = {"load": load}

if __name__ == "__main__":
    measured = WORK[sys.argv[1]](PlantFolder(Path(sys.argv[2])), *sys.argv[3:])
    print(measured.wall, measured.cpu)
