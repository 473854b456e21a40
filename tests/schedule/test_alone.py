"""One scheduler a plant."""

from __future__ import annotations

import os
from pathlib import Path

from eol.plant.folder import PlantFolder
from eol.schedule.alone import alone


def test_second_one_learns_the_pid(tmp_path: Path) -> None:
    """The first holds the schedule; a second is told its pid; afterwards it is free again."""
    folder = PlantFolder(tmp_path)
    with alone(folder) as first, alone(folder) as second:
        assert (first, second) == (None, str(os.getpid()))
    with alone(folder) as third:
        assert third is None
