"""The same files in any order, any batches, any number of times give the same tables (rule 1).

Some contents come under two names with two times, told by the name or by the file's last change.
Apart from them stands figure_sent: what a shift's figures were when it first settled is what had come by then.
After every load the stamps are what they are when every unit is stamped from nothing.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from random import Random

import builders as b
import plants
import pytest
from second_opinion import Plant
from store_tables import Rows, changed, moved_by_stamping_all, tables
from strategies import random_plant

from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder

MANY = (0, 1, *range(100, 120))
NAMED_TIME = "{made_at:%Y%m%d%H%M%S}"


@dataclass(frozen=True)
class Sent:
    """A plant's settings and its files on disk, in the order in which they came."""

    plant: Plant
    paths: list[Path]

    def batches(self, dice: Random) -> Iterator[list[Path]]:
        """The files in another order, in one to three batches, some of them sent twice."""
        shuffled = self.paths + dice.sample(self.paths, len(self.paths) // 4)
        dice.shuffle(shuffled)
        cuts = sorted(dice.randrange(len(shuffled)) for _ in range(dice.randrange(3)))
        for start, stop in zip([0, *cuts], [*cuts, len(shuffled)], strict=True):
            yield shuffled[start:stop]


def sent(seed: int, root: Path) -> Sent:
    """A random plant's files; some contents lie there a second time under a name of another time."""
    plant, dice = random_plant(seed), Random(seed)
    if dice.random() < 0.5:
        feeds = plant.settings.get("feed", {})
        for test in plant.settings["test"]:
            names = {"files": f"{test}_2*", "made_at": f"{test}_{NAMED_TIME}*"}
            plant.settings["feed"] = feeds = feeds | {test: feeds.get(test, {}) | names}
    _, paths = b.write_files(plant, root, kind=dice.choice(("csv", "parquet")))
    twins = [second_name(path, dice) for path in dice.sample(paths, len(paths) // 4)]
    return Sent(plant, paths + twins)


def second_name(path: Path, dice: Random) -> Path:
    """The same content under a name that tells an earlier or later time, last changed at another one."""
    step = timedelta(seconds=dice.randrange(-400_000, 400_000))
    feed, number = path.stem.rsplit("_", 2)[0], path.stem.rsplit("_", 1)[1]
    twin = path.with_name(f"{feed}_{b.MADE_AT + step:%Y%m%d%H%M%S}_{number}b{path.suffix}")
    shutil.copyfile(path, twin)
    changed_at = path.stat().st_mtime + dice.randrange(-400_000, 400_000)
    os.utime(twin, (changed_at, changed_at))
    return twin


def loaded_in_batches(made: Sent, root: Path, dice: Random) -> PlantFolder:
    """A plant that took the files in another order; its stamps hold after every batch."""
    folder = plants.made(root, made.plant.settings)
    for batch in made.batches(dice):
        ingest(folder, batch)
        assert moved_by_stamping_all(folder) == []
    return folder


def differences(seed: int, root: Path) -> list[str]:
    """What two orders of the same files make otherwise."""
    made = sent(seed, root / "files")
    once = plants.made(root / "once", made.plant.settings)
    ingest(once, made.paths)
    other = loaded_in_batches(made, root / "other", Random(seed))
    return changed(timeless(once), timeless(other))


def timeless(folder: PlantFolder) -> dict[str, Rows]:
    """All tables but the one that tells what was known at a time."""
    return {name: rows for name, rows in tables(folder).items() if name != "main.figure_sent"}


@pytest.mark.slow
@pytest.mark.parametrize("seed", MANY)
def test_any_order(seed: int, tmp_path: Path) -> None:
    """Every table is the same, those of losing versions, twins and waiting rows included."""
    assert differences(seed, tmp_path) == []


@pytest.mark.slow
@pytest.mark.parametrize("seed", MANY[:2])
def test_all_again_changes_nothing(seed: int, tmp_path: Path) -> None:
    """Files that were all loaded before leave every table as it was, to the last column."""
    made = sent(seed, tmp_path / "files")
    folder = plants.made(tmp_path / "plant", made.plant.settings)
    ingest(folder, made.paths)
    before = tables(folder, without={})
    result = ingest(folder, made.paths[::-1])
    assert {file.state for file in result.files} == {"known"}
    assert changed(before, tables(folder, without={})) == []
