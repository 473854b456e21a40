"""Waiting units."""

from __future__ import annotations

from dataclasses import replace

from chart_rows import chart_rows, layer_rows
from made_up_shift import open_unit, open_units, stress_shift

from eol.figures.open_units import SHOWN_GROUPS, open_unit_chart, waits_for


def test_one_mark_a_unit() -> None:
    """Every unit is drawn, single or in the number of a heap."""
    rows = chart_rows(open_unit_chart(stress_shift().open_units).to_dict())
    marks = {(r["group"], r["hours"], r["offset"]): r["units"] for r in rows if "offset" in r}
    assert sum(marks.values()) == 300


def test_over_a_day_is_a_diamond() -> None:
    """Beyond a day the shape changes, not the colour alone."""
    spec = open_unit_chart(open_units(37, oldest=76.0)).to_dict()
    shapes = {
        layer["mark"]["shape"]: {row["old"] for row in layer_rows(spec, layer)}
        for layer in spec["layer"]
        if layer["mark"].get("shape")
    }
    assert shapes == {"circle": {False}, "diamond": {True}}


def test_few_groups_the_largest_first() -> None:
    """Small groups are joined, so that the rows stay readable."""
    rows = chart_rows(open_unit_chart(open_units(60, oldest=10)).to_dict())
    groups = list(dict.fromkeys(row["group"] for row in rows if "group" in row))
    assert len(groups) == SHOWN_GROUPS + 1
    assert groups[-1].startswith("other (")


def test_what_a_unit_waits_for() -> None:
    """The words name the test, but for a decision."""
    assert waits_for(open_unit(0, 1.0)) == "water repair"
    assert waits_for(replace(open_unit(0, 1.0), waiting_for="decision")) == "a decision"


def test_unknown_hours_are_drawn_at_the_start() -> None:
    """A unit whose waiting time is not known is not lost."""
    rows = chart_rows(open_unit_chart([replace(open_unit(0, 1.0), hours=None)]).to_dict())
    assert [row["hours"] for row in rows if "offset" in row] == [0.25]
