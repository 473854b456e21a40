"""Bays beside each other."""

from __future__ import annotations

from dataclasses import replace

from chart_rows import chart_rows
from made_up_shift import LOUD_BAYS, bay, stress_shift

from eol.figures.bays import SHOWN_BAYS, bay_chart, shown_bays


def test_difference_is_told_in_words_and_shape() -> None:
    """A bay that passes fewer has a mark of its own and says so."""
    rows = chart_rows(bay_chart(LOUD_BAYS).to_dict())
    assert {row["verdict"] for row in rows if row.get("differs")} == {"passes fewer"}


def test_at_most_eight_those_that_differ_most() -> None:
    """Of twelve bays the eight that differ most are drawn."""
    shown = shown_bays(stress_shift().bays)
    assert [each.name for each in shown] == [f"W{number} B" for number in range(SHOWN_BAYS)]


def test_bay_without_interval_is_not_drawn() -> None:
    """A bay with too many void runs has no interval to draw."""
    void = replace(LOUD_BAYS[0], low=None, high=None)
    assert void not in shown_bays((void, *LOUD_BAYS[1:]))


def test_scale_comes_from_the_data() -> None:
    """The axis reaches under the lowest interval and never under 0."""
    low = bay("water", "W1 A", 2, 136)
    spec = bay_chart([low, *LOUD_BAYS]).to_dict()
    scales = [
        layer["encoding"]["x"].get("scale", {})
        for layer in spec["layer"]
        if "x" in layer["encoding"]
    ]
    assert {scale["domain"][0] for scale in scales if scale} == {0.0}


def test_verdict_stands_where_there_is_room() -> None:
    """Near the right edge the words go to the left of the marks."""
    rows = chart_rows(
        bay_chart([bay("water", "A", 134, 136, by_luck=0.0001), *LOUD_BAYS]).to_dict()
    )
    placed = {row["name"]: row["align"] for row in rows if row.get("verdict") and "align" in row}
    assert placed["A · Water"] == "right"
