"""How a notebook shows a chart."""

from __future__ import annotations

import altair as alt

from eol.figures.shown import show_without_network


def test_drawings_unless_somebody_chose() -> None:
    """The way that would load scripts is left; one that was chosen stays."""
    with alt.renderers.enable("default"):
        show_without_network()
        assert alt.renderers.active == "svg"
    with alt.renderers.enable("mimetype"):
        show_without_network()
        assert alt.renderers.active == "mimetype"
