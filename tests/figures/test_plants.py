"""The chart of plants draws each plant's share with its interval."""

from __future__ import annotations

from eol.figures.plants import plant_chart
from eol.figures.svg import chart_svg

ROWS = [
    {"plant": plant, "test": test, "ftt": 0.9, "low": low, "high": 0.95, "more": 1}
    for plant, low in (("P1", 0.85), ("P2", 0.88))
    for test in ("water", "squeak_rattle")
]


def test_a_panel_a_test() -> None:
    """Tests stand below each other by name, on one scale."""
    spec = plant_chart(ROWS).to_dict(validate=False)
    assert [panel["title"] for panel in spec["vconcat"]] == ["squeak rattle", "water"]
    scales = {str(p["layer"][0]["encoding"]["x"]["scale"]["domain"]) for p in spec["vconcat"]}
    assert scales == {"[0.84, 1.0]"}


def test_it_can_be_drawn() -> None:
    """The chart becomes one SVG that names the plants."""
    svg = chart_svg(plant_chart(ROWS), name="plants", label="plants")
    assert svg.startswith("<svg ")
    assert {"P1", "P2"} <= {word.split("<")[0] for word in svg.split(">")}
