"""Waiting units by what they wait for, one mark a unit, on a logarithmic time axis."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from typing import Any

import altair as alt

from eol.facts.units import A_DAY, OpenUnit
from eol.figures import theme

WIDTH, HEIGHT = 620, 208
SHOWN_GROUPS = 6
_LABELS = 176
_SHORTEST = 0.25
_TICKS = {0.5: "30 min", 1: "1 h", 2: "2 h", 4: "4 h", 8: "8 h", 24: "1 d", 72: "3 d", 240: "10 d"}
_BINS_A_DECADE = 22


def open_unit_chart(units: Sequence[OpenUnit]) -> theme.Chart:
    """Return the marks, a line at one day, and the hours of the longest waiting.

    Args:
        units: at least one unit, the longest waiting first.
    """
    rows = _rows(units)
    longest = max(30.0, *(row["hours"] for row in rows)) * 1.5
    x = alt.X(
        "hours:Q",
        title=None,
        scale=alt.Scale(type="log", domain=[_SHORTEST, longest], nice=False),
        axis=theme.labelled_axis(
            {tick: word for tick, word in _TICKS.items() if tick < longest},
            domain=False,
            ticks=False,
        ),
    )
    groups = sorted({str(row["group"]) for row in rows}, key=lambda name: _size(name, rows))
    y = alt.Y(
        "group:N",
        title=None,
        sort=None,
        scale=alt.Scale(domain=groups, paddingOuter=0.1),
        axis=alt.Axis(domain=False, ticks=False, labelLimit=_LABELS, minExtent=_LABELS),
    )
    layers = [_day_line(x), *_marks(rows, x, y)]
    return alt.layer(*layers).properties(width=WIDTH - _LABELS - 10, height=HEIGHT)


def waits_for(unit: OpenUnit) -> str:
    """Return what a unit waits for, in words: `water repair`, `decision`."""
    if unit.waiting_for == "decision":
        return "a decision"
    test = unit.title.removesuffix(" test").removesuffix(" track").lower()
    return f"{test} {unit.waiting_for}"


def _rows(units: Sequence[OpenUnit]) -> list[dict[str, Any]]:
    counts = Counter(waits_for(unit) for unit in units)
    kept = {name for name, _ in counts.most_common(SHOWN_GROUPS)}
    rest = len(units) - sum(counts[name] for name in kept)
    named = {name: f"{name} ({counts[name]})" for name in kept}
    rows = [
        {
            "group": named.get(waits_for(unit), f"other ({rest})"),
            "hours": max(_SHORTEST, unit.hours or _SHORTEST),
            "over": unit.over_a_day,
            "words": "",
        }
        for unit in units
    ]
    for row in rows[:3]:
        row["words"] = f"{row['hours']:.0f} h" if row["over"] else ""
    return _stacked(rows)


def _stacked(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Give marks that would cover each other their own place across the row."""
    seen: Counter[tuple[str, int]] = Counter()
    for row in rows:
        place = (row["group"], round(math.log10(row["hours"]) * _BINS_A_DECADE))
        row["level"] = seen[place]
        seen[place] += 1
    for row in rows:
        place = (row["group"], round(math.log10(row["hours"]) * _BINS_A_DECADE))
        row["offset"] = (row["level"] - (seen[place] - 1) / 2) / max(4, max(seen.values()))
    return rows


def _size(group: str, rows: list[dict[str, Any]]) -> tuple[bool, int, str]:
    """Largest group first, `other` last."""
    return group.startswith("other ("), -sum(row["group"] == group for row in rows), group


def _day_line(x: alt.X) -> theme.Layer:
    line = alt.Chart(theme.data([{"hours": A_DAY}]))
    return line.mark_rule(stroke=theme.INK, strokeDash=[5, 3], strokeWidth=1.2).encode(x=x)


def _marks(rows: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    size = 60 if len(rows) < 80 else 26
    within = alt.YOffset("offset:Q", scale=alt.Scale(domain=[-0.6, 0.6]))
    young = alt.Chart(theme.data(row for row in rows if not row["over"]))
    old = alt.Chart(theme.data(row for row in rows if row["over"]))
    named = alt.Chart(theme.data(row for row in rows if row["words"]))
    layers = []
    if any(not row["over"] for row in rows):
        mark = young.mark_point(
            shape="circle",
            size=size,
            fill=theme.BLUE,
            stroke=theme.WHITE,
            strokeWidth=0.7,
            opacity=1,
        )
        layers.append(mark.encode(x=x, y=y, yOffset=within))
    if any(row["over"] for row in rows):
        mark = old.mark_point(
            shape="diamond",
            size=size * 1.5,
            fill=theme.VERMILLION,
            stroke=theme.INK,
            strokeWidth=0.9,
            opacity=1,
        )
        layers.append(mark.encode(x=x, y=y, yOffset=within))
    if any(row["words"] for row in rows):
        text = named.mark_text(align="left", dx=9, fontWeight="bold", fontSize=13)
        layers.append(text.encode(x=x, y=y, yOffset=within, text="words:N"))
    return layers
