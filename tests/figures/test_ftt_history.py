"""First-time-through over the last shifts."""

from __future__ import annotations

from chart_rows import chart_rows
from made_up_shift import empty_shift, loud_shift, series, wave

from eol.figures.ftt_history import ftt_history


def test_one_chart_a_test_on_one_scale() -> None:
    """Every test has its own chart, and all share one scale."""
    spec = ftt_history(loud_shift().tests).to_dict()
    scales = {str(chart["layer"][1]["encoding"]["y"]["scale"]) for chart in spec["hconcat"]}
    assert len(spec["hconcat"]) == 3
    assert len(scales) == 1


def test_outside_is_a_shape() -> None:
    """A shift outside its limits is a triangle that points to the side it left."""
    spec = ftt_history(loud_shift().tests).to_dict()
    assert {row.get("outside") for row in chart_rows(spec)} >= {"", "below"}


def test_present_value_is_printed() -> None:
    """The present FTT stands in print in each chart."""
    words = {row.get("words") for row in chart_rows(ftt_history(loud_shift().tests).to_dict())}
    assert {"92.0%", "96.0%", "93.8%"} <= words


def test_no_band_without_limits() -> None:
    """With too few shifts no usual range is drawn."""
    few = series("water", wave(0.97, 0.01, 0.95), limits=False)
    marks = [layer["mark"]["type"] for layer in ftt_history([few]).to_dict()["hconcat"][0]["layer"]]
    assert "area" not in marks


def test_untested_shift_draws_no_value() -> None:
    """A test that never ran is an empty chart, not an error."""
    spec = ftt_history(empty_shift().tests).to_dict()
    assert all(row["ftt"] is None for row in chart_rows(spec) if "ftt" in row)


def test_scale_holds_every_mark() -> None:
    """The common scale reaches under the lowest value and limit."""
    spec = ftt_history([series("water", wave(0.9, 0.02, 0.55))]).to_dict()
    low, high = spec["hconcat"][0]["layer"][1]["encoding"]["y"]["scale"]["domain"]
    assert low < 0.55
    assert high == 1.0
