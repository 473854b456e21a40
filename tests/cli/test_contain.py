"""`eol contain`: how far a fault reaches."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from called import Eol
from plants import vin

from eol.plant.folder import PlantFolder


@pytest.fixture
def plant(small_plant: PlantFolder, tmp_path: Path) -> PlantFolder:
    """The small plant, to write to."""
    shutil.copytree(small_plant.root, tmp_path / "plant")
    return PlantFolder(tmp_path / "plant")


def test_words(eol: Eol, plant: PlantFolder) -> None:
    """Edges with reasons, evidence, files and the caution."""
    answer = eol("--plant", plant.root, "contain", "LEAK", "--vin", vin("U2").lower())
    assert answer.code == 0
    assert "first unit on record" in answer.out
    assert "not a field-action decision" in answer.out
    assert "Dry it." in answer.out
    assert "_v1.xlsx" in answer.out


def test_json(eol: Eol, plant: PlantFolder) -> None:
    """As JSON: the whole list and its version."""
    told = eol("--plant", plant.root, "contain", "LEAK", "--vin", vin("U2"), "--json").json
    assert told["kept"]["version"] == 1
    assert vin("U2") in {unit["vin"] for unit in told["found"]["units"]}


def test_wrong_question(eol: Eol, plant: PlantFolder) -> None:
    """Neither code nor bay: exit 2, and what to name."""
    answer = eol("--plant", plant.root, "contain")
    assert (answer.code, answer.out) == (2, "")
    assert "Name a CODE" in answer.err
