"""First-time-through over the last shifts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from chart_rows import chart_rows
from made_up_shift import empty_shift, loud_shift, series, wave

from eol.facts.ftt import FttSeries
from eol.figures.ftt_history import ftt_charts

Specs = list[dict[str, Any]]


def specs(tests: Sequence[FttSeries]) -> Specs:
    """Return the specifications of the charts of some tests."""
    return [chart.to_dict() for chart in ftt_charts(tests)]


def rows(tests: Sequence[FttSeries]) -> Specs:
    """Return all rows that the charts are drawn from."""
    return [row for spec in specs(tests) for row in chart_rows(spec)]


def test_one_chart_a_test_on_one_scale() -> None:
    """Every test has its own chart, and all share one scale."""
    charts = specs(loud_shift().tests)
    scales = {str(chart["layer"][1]["encoding"]["y"]["scale"]) for chart in charts}
    assert len(charts) == 3
    assert len(scales) == 1


def test_outside_is_a_shape() -> None:
    """A shift outside its limits is a triangle that points to the side it left."""
    assert {row.get("outside") for row in rows(loud_shift().tests)} >= {"", "below"}


def test_present_value_is_printed() -> None:
    """The present FTT stands in print in each chart."""
    words = {row.get("words") for row in rows(loud_shift().tests)}
    assert {"92.0%", "96.0%", "93.8%"} <= words


def test_no_band_without_limits() -> None:
    """With too few shifts no usual range is drawn."""
    few = series("water", wave(0.97, 0.01, 0.95), limits=False)
    marks = [layer["mark"]["type"] for layer in specs([few])[0]["layer"]]
    assert "area" not in marks


def test_untested_shift_draws_no_value() -> None:
    """A test that never ran is an empty chart, not an error."""
    assert all(row["ftt"] is None for row in rows(empty_shift().tests) if "ftt" in row)


def test_scale_holds_every_mark() -> None:
    """The common scale reaches under the lowest value and limit."""
    (spec,) = specs([series("water", wave(0.9, 0.02, 0.55))])
    low, high = spec["layer"][1]["encoding"]["y"]["scale"]["domain"]
    assert low < 0.55
    assert high == 1.0


def test_points_say_what_they_are() -> None:
    """A mark that one points at tells its shift, its share of how many, and what is usual."""
    spoken = [r["spoken"] for r in rows([series("water", wave(0.97, 0.01, 0.92))]) if "spoken" in r]
    assert spoken[-1].startswith("18 Sep day: 92.0% of 400 units, usual ")
