"""The small scale beside a headline figure: interval, mark, usual range and target."""

from __future__ import annotations

from typing import Any

import altair as alt

from eol.facts.strip import Figure
from eol.figures import theme

WIDTH, HEIGHT = 190, 62


def interval_scale(figure: Figure, *, percent: bool) -> theme.Chart:
    """Return the scale of one figure.

    Args:
        figure: a figure with a value.
        percent: True for a share, drawn in percent.
    """
    low, high = _ends(figure)
    x = alt.X("at:Q", axis=None, scale=theme.scale(domain=[low, high]))
    layers = [
        *_usual(figure, x, percent=percent),
        *_target(figure, x, percent=percent),
        *_value(figure, x),
    ]
    return alt.layer(*layers, width=WIDTH, height=HEIGHT)


def _ends(figure: Figure) -> tuple[float, float]:
    usual = figure.usual
    known = [figure.value, figure.low, figure.high, figure.target]
    known += [usual.low, usual.high] if usual else []
    ends = [number for number in known if number is not None]
    margin = 0.12 * (max(ends) - min(ends)) or 0.02
    return min(ends) - margin, max(ends) + margin


def _usual(figure: Figure, x: alt.X, *, percent: bool) -> list[theme.Layer]:
    usual = figure.usual
    if usual is None:
        return []
    band = theme.drawn([{"at": usual.low, "to": usual.high}]).mark_rect(
        fill=theme.BAND, stroke=theme.LINE, strokeWidth=1, strokeDash=[3, 2]
    )
    ends = [{"at": end, "word": _words(end, percent=percent)} for end in (usual.low, usual.high)]
    words = theme.drawn(ends).mark_text(fontSize=13, color=theme.MUTED)
    return [
        band.encode(x=x, x2=alt.X2("to:Q"), y=theme.down(19), y2=theme.down_to(43)),
        words.encode(x=x, y=theme.down(53), text=alt.Text("word:N")),
    ]


def _target(figure: Figure, x: alt.X, *, percent: bool) -> list[theme.Layer]:
    if figure.target is None:
        return []
    word = "target " + _words(figure.target, percent=percent)
    base = theme.drawn([{"at": figure.target, "word": word}])
    line = base.mark_rule(stroke=theme.INK, strokeWidth=2.5)
    text = base.mark_text(fontSize=13, color=theme.INK)
    return [
        line.encode(x=x, y=theme.down(15), y2=theme.down_to(46)),
        text.encode(x=x, y=theme.down(7), text=alt.Text("word:N")),
    ]


def _value(figure: Figure, x: alt.X) -> list[theme.Layer]:
    bad = figure.beyond_usual or figure.misses_target
    row: dict[str, Any] = {"at": figure.value, "low": figure.low, "high": figure.high}
    base = theme.drawn([row])
    colour = theme.VERMILLION if bad else theme.BLUE
    shape = ("triangle-up" if figure.up_is_worse else "triangle-down") if bad else "circle"
    mark = base.mark_point(
        shape=shape, size=130, fill=colour, stroke=theme.INK, strokeWidth=1, opacity=1
    )
    layers = [mark.encode(x=x, y=theme.down(31))]
    if figure.low is None or figure.high is None:
        return layers
    interval = alt.X("low:Q", axis=None, scale=x["scale"])
    rule = base.mark_rule(stroke=colour, strokeWidth=3)
    return [rule.encode(x=interval, x2=alt.X2("high:Q"), y=theme.down(31)), *layers]


def _words(number: float, *, percent: bool) -> str:
    return f"{number * 100:.0f}" if percent else f"{number:.0f}"
