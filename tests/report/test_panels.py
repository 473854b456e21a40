"""The panels with figures."""

from __future__ import annotations

from dataclasses import replace

from made_up_shift import empty_shift, loud_shift

from eol.facts.zones import Zones
from eol.report.panels import panels


def test_empty_shift_has_words_for_every_figure() -> None:
    """Where nothing can be drawn no empty chart stands, but words."""
    made = panels(empty_shift())
    assert {panel.svg for panel in made} == {""}
    assert made[0].words == "No unit was tested in this shift"
    assert made[-1].words == "No unit waits"


def test_loud_shift_draws_every_figure() -> None:
    """Each panel has its figure and leads to its table."""
    made = panels(loud_shift())
    assert all(panel.svg.startswith("<svg ") for panel in made)
    assert [panel.table for panel in made] == [
        "t-history",
        "t-pareto",
        "t-zones",
        "t-bays",
        "t-open",
    ]


def test_unknown_zones_are_said() -> None:
    """Without a place in the catalogue the map says so, and counts what it cannot show."""
    made = panels(replace(loud_shift(), zones=Zones((), (), 65)))[2]
    assert (made.svg, made.words) == ("", "No zone with a place on the unit is in the catalogue")
    assert "65 defects not on the map" in made.caption
