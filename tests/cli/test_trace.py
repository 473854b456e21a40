"""`eol trace`: where a defect comes from."""

from __future__ import annotations

from called import Eol

from eol.demo.build import DemoResult
from eol.plant.folder import PlantFolder


def test_words(eol: Eol, demo_plant: DemoResult) -> None:
    """The cause in words, and the factors that speak in a table."""
    answer = eol("--plant", demo_plant.folder.root, "trace", "SR-TAILTRIM")
    assert answer.code == 0
    assert "Start with clip lot C-4471, on joints: 73 of" in answer.out
    assert "corrected" in answer.out


def test_json(eol: Eol, small_plant: PlantFolder) -> None:
    """As JSON: everything that was looked at."""
    told = eol("--plant", small_plant.root, "trace", "LEAK", "--json").json
    assert (told["code"], told["test"], told["causes"]) == ("LEAK", "water", [])


def test_unknown_code(eol: Eol, small_plant: PlantFolder) -> None:
    """A code that nobody knows: exit 2, and the nearest."""
    answer = eol("--plant", small_plant.root, "trace", "LEEK")
    assert (answer.code, answer.out) == (2, "")
    assert "Nearest: LEAK" in answer.err
