"""Random plants that come in two loads: what had settled after the first and is another after the second."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from random import Random
from typing import Any

import builders as b
import plants
import pytest
from agreement import differences, said
from second_opinion import Plant, evaluate
from second_opinion.figure_views import figure_change
from strategies import random_plant

from eol.load.ingest import ingest

Row = dict[str, Any]
PLAIN = range(2)
MANY = range(2, 62)
LATE = 0.3
"""This share of a plant's files comes with the second load."""


def parted(plant: Plant, seed: int) -> list[bool]:
    """Of each file of a plant, whether it comes with the first load."""
    dice = Random(seed)
    return [dice.random() >= LATE for _ in plant.files]


def expected(plant: Plant, first: list[bool]) -> list[Row]:
    """The figures that moved, as the second opinion has them."""
    early = [file for file, comes in zip(plant.files, first, strict=True) if comes]
    return figure_change(evaluate(replace(plant, files=early)), evaluate(plant))


def disagreements(seed: int, root: Path) -> list[str]:
    """What the tool says otherwise of one random plant's settled figures."""
    plant = random_plant(seed)
    first = parted(plant, seed)
    folder = plants.bare(root / "plant", plant.settings)
    folder.store.write_bytes(plants.blank_store())
    written, paths = b.write_files(plant, root / "files", kind="parquet" if seed % 3 else "csv")
    for load in (True, False):
        ingest(folder, [path for path, comes in zip(paths, first, strict=True) if comes == load])
    theirs = said(folder, ["figure_change"])["figure_change"]
    return differences("figure_change", expected(written, first), theirs)


def with_changes(seeds: range) -> int:
    """How many of some random plants have settled figures that moved."""
    plants_drawn = [(random_plant(seed), seed) for seed in seeds]
    return sum(bool(expected(plant, parted(plant, seed))) for plant, seed in plants_drawn)


@pytest.mark.parametrize("seed", PLAIN)
def test_figures_that_moved(seed: int, tmp_path: Path) -> None:
    """Rule 4: a later file changes no settled figure without a row, and makes no row without a change."""
    assert disagreements(seed, tmp_path) == []


def test_some_figures_move() -> None:
    """Enough of the plants have a settled shift whose figures a later file changes."""
    assert with_changes(PLAIN) >= 2


@pytest.mark.slow
@pytest.mark.parametrize("seed", MANY)
def test_many_figures_that_moved(seed: int, tmp_path: Path) -> None:
    """The same of many more."""
    assert disagreements(seed, tmp_path) == []


@pytest.mark.slow
def test_many_figures_move() -> None:
    """The same of many more."""
    assert with_changes(MANY) >= 20
