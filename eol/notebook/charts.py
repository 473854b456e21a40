"""The figures of a shift as Altair charts, as the page draws them; a notebook shows one by naming it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from eol.facts.shift import ShiftFacts

if TYPE_CHECKING:
    import altair as alt


class Charts:
    """The charts of one shift; each is made when it is asked for.

    `facts` are the figures in them, as values.
    """

    def __init__(self, facts: ShiftFacts) -> None:
        self.facts = facts
        from eol.figures.shown import show_without_network

        show_without_network()

    def ftt(self) -> tuple[alt.TopLevelMixin, ...]:
        """First-time-through over the last shifts with its usual range, a chart a test."""
        from eol.figures.ftt_history import ftt_charts

        return ftt_charts(self.facts.tests)

    def pareto(self) -> alt.TopLevelMixin:
        """The codes of the shift by defects, with the running share."""
        from eol.figures.pareto import pareto_chart

        return pareto_chart(self.facts.pareto)

    def zones(self) -> alt.TopLevelMixin:
        """Where on the unit the defects are, seen from above."""
        from eol.figures.zone_map import zone_map

        return zone_map(self.facts.zones)

    def bays(self) -> alt.TopLevelMixin:
        """First-time-through of each bay with its interval, beside the other bays of its test."""
        from eol.figures.bays import bay_chart

        return bay_chart(self.facts.bays)

    def open_units(self) -> alt.TopLevelMixin:
        """How long the open units have waited, by what they wait for."""
        from eol.figures.open_units import open_unit_chart

        return open_unit_chart(self.facts.open_units)
