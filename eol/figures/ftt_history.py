"""First-time-through of each test over the last shifts, with its usual range shaded."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import altair as alt

from eol.facts.ftt import FttSeries, ShiftPoint
from eol.figures import theme
from eol.figures.formats import percent, short_day
from eol.words import counted

WIDTH, HEIGHT = 1300, 102
"""Pixels of all charts side by side, and of one chart's plot."""

_AXIS, _GAP = 44, 22
_FOOT = 0.38
"""Share of the scale kept free under all marks."""

_WIDE = 230
"""Pixels from which a chart has room for a third date."""

_NEAR = 6
"""Points above which the printed value would stand."""


def ftt_charts(tests: Sequence[FttSeries]) -> tuple[theme.Chart, ...]:
    """Return one small chart a test, all on one scale, to stand side by side or under each other.

    Args:
        tests: at least one series; tests without any point are drawn as empty charts.
    """
    lowest = _lowest(tests)
    width = WIDTH / len(tests) - _AXIS - _GAP
    return tuple(_one(series, lowest=lowest, width=width) for series in tests)


def _lowest(tests: Sequence[FttSeries]) -> float:
    """The lower end of the common scale: under all marks, with room for a printed value."""
    seen = [point.ftt for series in tests for point in series.points if point.ftt is not None]
    seen += [point.usual.low for series in tests for point in series.points if point.usual]
    smallest = min([0.95, *seen])
    return max(0.0, math.floor((smallest - _FOOT * (1 - smallest)) * 50) / 50)


def _one(series: FttSeries, *, lowest: float, width: float) -> theme.Layers:
    points = [_row(at, point) for at, point in enumerate(series.points)]
    x = alt.X("at:Q", title=None, axis=_dates(series.points, width), scale=_across(len(points)))
    y = alt.Y(
        "ftt:Q",
        title=None,
        axis=alt.Axis(format=".0%", tickCount=4, domain=False, ticks=False, minExtent=_AXIS - 6),
        scale=theme.scale(domain=[lowest, 1.0]),
    )
    layers = [_name(series, width), *_usual_range(points, x, y), *_values(points, x, y)]
    layers += _now(points, x, y)
    return alt.layer(*layers, width=width, height=HEIGHT)


def _name(series: FttSeries, width: float) -> theme.Layer:
    """The test's name, printed by hand: chart titles would not stand on one line."""
    text = theme.drawn([{"name": series.title}]).mark_text(
        align="left", fontSize=16, fontWeight="bold", limit=width
    )
    return text.encode(x=theme.across(0), y=theme.down(-14), text=alt.Text("name:N"))


def _row(at: int, point: ShiftPoint) -> dict[str, Any]:
    return {
        "at": at,
        "ftt": point.ftt,
        "low": point.usual.low if point.usual else None,
        "high": point.usual.high if point.usual else None,
        "centre": point.usual.centre if point.usual else None,
        "outside": "below" if point.below else "above" if point.above else "",
        "words": percent(point.ftt) if point.ftt is not None else "",
        "spoken": _spoken(point),
    }


def _spoken(point: ShiftPoint) -> str:
    """What a mark says where one points at it."""
    when = " ".join(part for part in (short_day(point.production_date), point.shift) if part)
    share = f"{percent(point.ftt)} of {counted(point.tested, 'unit')}"
    if point.usual is None:
        return f"{when}: {share}"
    return f"{when}: {share}, usual {percent(point.usual.low)} to {percent(point.usual.high)}"


def _across(points: int) -> alt.Scale:
    return theme.scale(domain=[-0.6, max(1, points - 1) + 1.2])


def _dates(points: Sequence[ShiftPoint], width: float) -> alt.Axis:
    """A few dates and the present shift: the eye needs no more, and they must not touch."""
    last = len(points) - 1
    wanted = sorted({0, last // 3, 2 * last // 3} if width > _WIDE else {0, last // 2})
    wanted = [at for at in wanted if at != last]
    labels: dict[float, str] = {at: _day(points[at]) for at in wanted}
    labels[last] = "now"
    return theme.labelled_axis(labels, grid=False, domain=False, ticks=True, tickSize=4)


def _day(point: ShiftPoint) -> str:
    return short_day(point.production_date)


def _usual_range(points: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    with_limits = [point for point in points if point["low"] is not None]
    if not with_limits:
        return []
    base = theme.drawn(with_limits)
    limit = base.mark_line(stroke=theme.LINE, strokeDash=[4, 3], strokeWidth=1, interpolate="step")
    return [
        base.mark_area(fill=theme.BAND, interpolate="step").encode(
            x=x, y=_copy(y, "low:Q"), y2=alt.Y2("high:Q")
        ),
        limit.encode(x=x, y=_copy(y, "low:Q")),
        limit.encode(x=x, y=_copy(y, "high:Q")),
        base.mark_line(stroke=theme.LINE, strokeWidth=1).encode(x=x, y=_copy(y, "centre:Q")),
    ]


def _values(points: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    base = theme.drawn(points)
    outside = theme.drawn(point for point in points if point["outside"])
    shape = alt.Shape(
        "outside:N",
        legend=None,
        scale=alt.Scale(domain=["below", "above"], range=["triangle-down", "triangle-up"]),
    )
    return [
        base.mark_line(stroke=theme.BLUE, strokeWidth=1.6).encode(x=x, y=y),
        base.mark_point(fill=theme.BLUE, stroke=None, size=18, opacity=1).encode(
            x=x, y=y, description=alt.Description("spoken:N")
        ),
        outside.mark_point(
            size=130, fill=theme.VERMILLION, stroke=theme.INK, strokeWidth=1, opacity=1
        ).encode(x=x, y=y, shape=shape),
    ]


def _now(points: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    """The present value: a larger mark, and in print under everything near it."""
    now = points[-1]
    if now["ftt"] is None:
        return []
    near = [point[end] for point in points[-_NEAR:] for end in ("ftt", "low")]
    below = min(value for value in near if value is not None)
    place = {"at": now["at"], "ftt": below, "words": now["words"]}
    text = theme.drawn([place]).mark_text(
        align="right", dx=14, dy=18, fontSize=18, fontWeight="bold"
    )
    layers = [text.encode(x=x, y=y, text=alt.Text("words:N"))]
    if not now["outside"]:
        ring = theme.drawn([now]).mark_point(
            size=75, fill=theme.BLUE, stroke=theme.INK, strokeWidth=1.8, opacity=1
        )
        layers.append(ring.encode(x=x, y=y))
    return layers


def _copy(y: alt.Y, shorthand: str) -> alt.Y:
    """The same scale and axis for another column."""
    return alt.Y(shorthand, title=None, axis=y["axis"], scale=y["scale"])
