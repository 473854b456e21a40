"""The charts of a shift: what a notebook shows."""

from __future__ import annotations

import altair as alt
import pytest

import eol
from eol.demo.build import DemoResult
from eol.notebook.charts import Charts


@pytest.fixture(scope="module")
def charts(demo_plant: DemoResult) -> Charts:
    """The charts of the demo's most telling shift."""
    return eol.open_plant(demo_plant.folder.root).charts(demo_plant.shift)


@pytest.mark.parametrize("name", ["pareto", "zones", "bays", "open_units"])
def test_chart_shows_itself(charts: Charts, name: str) -> None:
    """A chart shows in a notebook as a drawing that needs no network."""
    chart = getattr(charts, name)()
    assert isinstance(chart, alt.TopLevelMixin)
    bundle = chart._repr_mimebundle_()
    kinds = bundle[0] if isinstance(bundle, tuple) else bundle
    assert kinds["image/svg+xml"].startswith("<svg")


def test_chart_a_test(charts: Charts) -> None:
    """First-time-through is a chart a test, in the plant's order."""
    assert len(charts.ftt()) == len(charts.facts.tests) == 4
