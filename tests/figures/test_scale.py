"""The small scale beside a figure."""

from __future__ import annotations

from chart_rows import chart_rows
from made_up_shift import strip

from eol.facts.strip import Figure
from eol.figures.scale import interval_scale


def marks(figure: Figure) -> list[str]:
    """Return the types of the marks of a scale."""
    spec = interval_scale(figure, percent=True).to_dict()
    return [layer["mark"]["type"] for layer in spec["layer"]]


def test_interval_usual_range_and_target() -> None:
    """A full figure shows its band with both ends, its target, its interval and its mark."""
    assert marks(strip(loud=True).line_ftt) == ["rect", "text", "rule", "text", "rule", "point"]


def test_bare_value_shows_its_mark_alone() -> None:
    """Without interval, range and target there is only the mark."""
    assert marks(Figure(0.9)) == ["point"]


def test_target_is_named() -> None:
    """The target stands in words over its tick."""
    words = {
        row.get("word")
        for row in chart_rows(interval_scale(strip(loud=True).line_ftt, percent=True).to_dict())
    }
    assert {"target 90", "86", "92"} <= words


def test_alarm_is_a_shape() -> None:
    """A missed target is a triangle in the direction of harm."""
    spec = interval_scale(strip(loud=True).line_ftt, percent=True).to_dict()
    assert spec["layer"][-1]["mark"]["shape"] == "triangle-down"
