"""How a notebook shows a chart where nobody has chosen a way: as a drawing, which needs no network."""

from __future__ import annotations

import altair as alt


def show_without_network() -> None:
    """Let charts show as drawings; a way that somebody chose stays.

    Altair's own way loads its scripts from the network, which a plant may not have.
    """
    if alt.renderers.active == "default":
        alt.renderers.enable("svg")
