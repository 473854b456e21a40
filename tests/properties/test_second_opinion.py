"""Random plants: every stamped table and every view equals the second opinion, row for row."""

from __future__ import annotations

from pathlib import Path

import pytest
from agreement import KEYS, differences, load, said, thought
from second_opinion import evaluate
from strategies import random_plant

PLAIN = range(50)
MANY = range(50, 550)
SLOW = (
    "scoped_unit",
    "unit_at_risk",
    "figure_now",
    "classed_finding",
    "catalogue",
    "first_run_all",
    "defect_all",
)
"""Views that take long, and that others read or show: the plain run asks every fourth plant for them."""


def disagreements(seed: int, root: Path, *, without: tuple[str, ...] = ()) -> list[str]:
    """All that the tool says otherwise of one random plant, but for some views."""
    kind = "parquet" if seed % 3 == 0 else "csv"
    plant, folder, _ = load(random_plant(seed), root, kind=kind)
    opinion = evaluate(plant)
    names = [name for name in KEYS if name not in without]
    rows = said(folder, names)
    return [
        line for name in names for line in differences(name, thought(opinion, name), rows[name])
    ]


@pytest.mark.parametrize("seed", PLAIN)
def test_random_plant(seed: int, tmp_path: Path) -> None:
    """Counts agree exactly and ratios to 1e-12."""
    assert disagreements(seed, tmp_path, without=SLOW if seed % 4 else ()) == []


@pytest.mark.slow
@pytest.mark.parametrize("seed", MANY)
def test_many_random_plants(seed: int, tmp_path: Path) -> None:
    """The same of many more."""
    assert disagreements(seed, tmp_path) == []
