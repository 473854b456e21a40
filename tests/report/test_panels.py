"""The panels with figures."""

from __future__ import annotations

from dataclasses import replace

from made_up_shift import empty_shift, loud_shift
from made_up_signals import ranked

from eol.facts.signals import Signals
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
        "t-bays",
        "t-zones",
        "t-open",
    ]


def test_unknown_zones_are_said() -> None:
    """Without a place in the catalogue the map says so, and counts what it cannot show."""
    made = panels(replace(loud_shift(), zones=Zones((), (), 65)))[3]
    assert (made.svg, made.words) == ("", "No zone with a place on the unit is in the catalogue")
    assert "65 defects not on the map" in made.caption


def test_window_has_its_panel_where_there_is_one() -> None:
    """The 20 shifts stand beside the shift's own defects, and lead to their table."""
    window = (ranked("SEAM", 30, 1, 1), ranked("DOOR", 9, 2, 3))
    made = panels(replace(loud_shift(), signals=Signals(window=window)))
    assert [panel.table for panel in made][1:3] == ["t-pareto", "t-window"]
    assert made[2].title == "SEAM leads the last 20 shifts"
    assert "2–3" in made[2].svg
