"""`eol unit`: the trail of a unit."""

from __future__ import annotations

from called import Eol
from plants import vin

from eol.plant.folder import PlantFolder


def test_words(eol: Eol, small_plant: PlantFolder) -> None:
    """What is known of the unit and words of caution are said; status and trail are tables."""
    answer = eol("--plant", small_plant.root, "unit", vin("U2"))
    assert answer.code == 0
    assert "Caution: Dry it." in answer.err
    assert "resealed" in answer.out
    assert "passed" in answer.out


def test_json(eol: Eol, small_plant: PlantFolder) -> None:
    """As JSON: the unit, its status and its trail; the words of caution go with them."""
    told = eol("--plant", small_plant.root, "unit", vin("U2"), "--json").json
    assert told["unit"]["vin"] == vin("U2")
    assert [row["status"] for row in told["status"]] == ["passed", "passed"]
    assert told["handling"] == ["Dry it."]
    assert len(told["trail"]) > 5


def test_unknown_unit(eol: Eol, small_plant: PlantFolder) -> None:
    """An unknown VIN: exit 2, and the nearest ones."""
    answer = eol("--plant", small_plant.root, "unit", vin("U4"))
    assert (answer.code, answer.out) == (2, "")
    assert f"Nearest: {vin('U1')}" in answer.err
