"""Waiting units by what they wait for, one mark a unit, on a logarithmic time axis."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Sequence
from typing import Any

import altair as alt

from eol.facts.units import A_DAY, OpenUnit
from eol.figures import theme
from eol.figures.wording import hours_words, short_title

HEIGHT = 168
SHOWN_GROUPS = 6
TOGETHER = 7
"""Units of one group waiting equally long from which one mark with their number stands for all."""

Waiting = tuple[float, str]
"""Hours that a unit waits, and what its mark says."""

_NAMES, _PLOT = 190, 370
_SHORTEST = 0.25
_TICKS = {0.5: "30 min", 1: "1 h", 2: "2 h", 4: "4 h", 8: "8 h", 24: "1 d", 72: "3 d", 240: "10 d"}
_BINS_A_DECADE = 24


def open_unit_chart(units: Sequence[OpenUnit]) -> theme.Chart:
    """Return the marks, a line at one day, and the hours of the longest waiting.

    Args:
        units: at least one unit, the longest waiting first.
    """
    marks = _marks(units)
    longest = max(30.0, *(mark["hours"] for mark in marks)) * 1.6
    ticks = {tick: word for tick, word in _TICKS.items() if tick < longest}
    x = alt.X(
        "hours:Q",
        title=None,
        scale=alt.Scale(type="log", domain=[0.8 * _SHORTEST, longest], nice=False),
        axis=theme.labelled_axis(ticks, domain=False, ticks=False),
    )
    groups = list(dict.fromkeys(mark["group"] for mark in marks))
    bands = alt.Scale(type="band", domain=groups, paddingInner=0.12, paddingOuter=0.06)
    y = alt.Y("group:N", title=None, sort=None, scale=bands, axis=None)
    layers = [*_words(marks, groups, y), _day_line(x), *_points(marks, x, y), *_heaps(marks, x, y)]
    return alt.layer(*layers, width=_PLOT, height=HEIGHT)


def waits_for(unit: OpenUnit) -> str:
    """Return what a unit waits for, in words: `water repair`, `a decision`."""
    if unit.waiting_for == "decision":
        return "a decision"
    return f"{short_title(unit.title).lower()} {unit.waiting_for}"


def _marks(units: Sequence[OpenUnit]) -> list[dict[str, Any]]:
    """One mark a unit, or one with a number where many would cover each other."""
    heaps: defaultdict[tuple[str, int], list[Waiting]] = defaultdict(list)
    for group, hours, spoken in _grouped(units):
        heaps[group, round(math.log10(hours) * _BINS_A_DECADE)].append((hours, spoken))
    return [mark for (group, _), heap in heaps.items() for mark in _heap(group, heap)]


def _grouped(units: Sequence[OpenUnit]) -> list[tuple[str, float, str]]:
    counts = Counter(waits_for(unit) for unit in units)
    order = sorted(counts, key=lambda name: (-counts[name], name))
    kept, rest = order[:SHOWN_GROUPS], order[SHOWN_GROUPS:]
    names = {name: f"{name} ({counts[name]})" for name in kept}
    names |= {name: f"other ({sum(counts[each] for each in rest)})" for name in rest}
    placed = [(order.index(waits_for(unit)), unit) for unit in units]
    placed.sort(key=lambda pair: pair[0])
    return [
        (names[waits_for(unit)], max(_SHORTEST, unit.hours or _SHORTEST), _spoken(unit))
        for _, unit in placed
    ]


def _spoken(unit: OpenUnit) -> str:
    """What a mark says where one points at it."""
    parts = (unit.vin, hours_words(unit.hours), unit.codes, unit.place)
    return ", ".join(part for part in parts if part)


def _heap(group: str, heap: list[Waiting]) -> list[dict[str, Any]]:
    """The marks of units that wait equally long: spread across the row, or one for all."""
    if len(heap) >= TOGETHER:
        longest = max(hours for hours, _ in heap)
        spoken = f"{len(heap)} units, the longest {hours_words(longest)}"
        return [_mark(group, (longest, spoken), 0.0, len(heap))]
    middle = (len(heap) - 1) / 2
    return [_mark(group, one, (at - middle) / TOGETHER, 1) for at, one in enumerate(heap)]


def _mark(group: str, waiting: Waiting, offset: float, units: int) -> dict[str, Any]:
    hours, spoken = waiting
    return {
        "group": group,
        "spoken": spoken,
        "hours": round(hours, 3),
        "offset": round(offset, 3),
        "units": units,
        "old": hours > A_DAY,
    }


def _words(marks: list[dict[str, Any]], groups: list[str], y: alt.Y) -> list[theme.Layer]:
    """What is waited for at the left, the longest time at the right."""
    oldest = {group: max(m["hours"] for m in marks if m["group"] == group) for group in groups}
    rows = [{"group": group, "words": hours_words(oldest[group])} for group in groups]
    base = theme.drawn(rows)
    head = theme.drawn([{"words": "longest"}]).mark_text(
        align="right", fontSize=13, color=theme.MUTED
    )
    edge = theme.across(_PLOT + 60)
    name = base.mark_text(align="right", fontSize=15, limit=_NAMES)
    longest = base.mark_text(align="right", fontSize=15, color=theme.MUTED)
    return [
        name.encode(x=theme.across(-12), y=y, text=alt.Text("group:N")),
        longest.encode(x=edge, y=y, text=alt.Text("words:N")),
        head.encode(x=edge, y=theme.down(-7), text=alt.Text("words:N")),
    ]


def _day_line(x: alt.X) -> theme.Layer:
    rule = theme.drawn([{"hours": A_DAY}]).mark_rule(
        stroke=theme.INK, strokeDash=[5, 3], strokeWidth=1.2
    )
    return rule.encode(x=x)


def _points(marks: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    """Circles up to a day, diamonds beyond."""
    within = alt.YOffset("offset:Q", scale=alt.Scale(domain=[-0.55, 0.55]))
    young = {"shape": "circle", "fill": theme.BLUE, "stroke": theme.WHITE, "strokeWidth": 0.7}
    old = {"shape": "diamond", "fill": theme.VERMILLION, "stroke": theme.INK, "strokeWidth": 0.9}
    single = [mark for mark in marks if mark["units"] == 1]
    layers = []
    for look, wanted in ((young, False), (old, True)):
        some = [mark for mark in single if mark["old"] == wanted]
        if some:
            points = theme.drawn(some).mark_point(size=56, opacity=1, **look)
            layers.append(
                points.encode(x=x, y=y, yOffset=within, description=alt.Description("spoken:N"))
            )
    return layers


def _heaps(marks: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    """Open marks with a number for many units, in the shape and colour of the single ones."""
    layers = []
    for shape, colour, size, old in (
        ("circle", theme.BLUE, 430, False),
        ("diamond", theme.VERMILLION, 620, True),
    ):
        some = [mark for mark in marks if mark["units"] > 1 and mark["old"] == old]
        if some:
            base = theme.drawn(some)
            mark = base.mark_point(
                shape=shape, size=size, fill=theme.WHITE, stroke=colour, strokeWidth=2, opacity=1
            )
            number = base.mark_text(fontSize=12, fontWeight="bold")
            layers += [
                mark.encode(x=x, y=y, description=alt.Description("spoken:N")),
                number.encode(x=x, y=y, text=alt.Text("units:Q")),
            ]
    return layers
