"""First passes of each bay with its interval, beside the share of its test's other bays."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import altair as alt

from eol.facts.bays import Bay
from eol.figures import theme
from eol.figures.formats import percent
from eol.figures.wording import short_title
from eol.words import counted

HEIGHT = 206
SHOWN_BAYS = 8
_NAMES, _PLOT = 150, 160
_TITLE = 17
"""Signs of a test's title that stand beside a bay's name."""

_STEPS = (0.01, 0.02, 0.05, 0.1, 0.2, 0.25, 0.5, 1.0)
_MOST_STEPS = 3
_ROOM = 0.56
"""Share of the scale that a verdict in words takes up."""


def bay_chart(bays: Sequence[Bay]) -> theme.Chart:
    """Return at most eight bays, those that differ most from their test's others.

    Args:
        bays: at least one bay with an interval.
    """
    rows = [_row(bay) for bay in shown_bays(bays)]
    lowest = min([0.98, *(row["low"] for row in rows), *(row["others"] for row in rows)])
    x = alt.X(
        "ftt:Q",
        title=None,
        axis=alt.Axis(format=".0%", values=_ticks_of(lowest), domain=False, ticks=False),
        scale=theme.scale(domain=[max(0.0, lowest - 0.01), 1.0]),
    )
    bands = alt.Scale(domain=[row["name"] for row in rows])
    y = alt.Y("name:N", title=None, sort=None, scale=bands, axis=None)
    layers = [*_words(rows, y), *_marks(rows, x, y), *_verdicts(rows, x, y)]
    return alt.layer(*layers, width=_PLOT, height=HEIGHT)


def _ticks_of(lowest: float) -> list[float]:
    """Three or four round shares up to 100 %, so that their labels never touch."""
    step = next(step for step in _STEPS if (1 - lowest) / step <= _MOST_STEPS)
    return [round(1 - step * at, 3) for at in range(_MOST_STEPS + 1) if step * at <= 1 - lowest]


def shown_bays(bays: Sequence[Bay]) -> tuple[Bay, ...]:
    """Return the bays to draw: with an interval, the eight that differ most, in plant order."""
    telling = [bay for bay in bays if bay.low is not None]
    first = sorted(telling, key=lambda bay: (bay.by_luck, bay.test, bay.name))[:SHOWN_BAYS]
    kept = {(bay.test, bay.name) for bay in first}
    return tuple(bay for bay in telling if (bay.test, bay.name) in kept)


def _row(bay: Bay) -> dict[str, Any]:
    return {
        "name": f"{bay.name} · {_first_words(short_title(bay.title))}",
        "ftt": bay.ftt,
        "low": bay.low,
        "high": bay.high,
        "others": bay.others_ftt if bay.others_ftt is not None else 1.0,
        "has_others": bay.others_ftt is not None,
        "differs": bay.differs or "",
        "spoken": f"{bay.name}: {percent(bay.ftt)} of {counted(bay.tested, 'unit')} at first",
        "words": f"{bay.tested - bay.passed_first} of {bay.tested}",
        "verdict": f"passes {bay.differs}" if bay.differs else "",
    }


def _first_words(title: str) -> str:
    """As many words of a title as stand beside a bay's name; the table has it whole."""
    words = title.split(" ")
    while len(words) > 1 and len(" ".join(words)) > _TITLE:
        words.pop()
    return " ".join(words[:-1] if len(words) > 1 and words[-1] in ("and", "of") else words)


def _words(rows: list[dict[str, Any]], y: alt.Y) -> list[theme.Layer]:
    """The bay's name at the left, the units that did not pass at the right."""
    base = theme.drawn(rows)
    name = base.mark_text(align="right", fontSize=15, limit=_NAMES)
    failed = base.mark_text(align="right", fontSize=15, color=theme.MUTED)
    head = theme.drawn([{"words": "not passed"}]).mark_text(
        align="right", fontSize=13, color=theme.MUTED
    )
    edge = theme.across(_PLOT + 84)
    return [
        name.encode(x=theme.across(-12), y=y, text=alt.Text("name:N")),
        failed.encode(x=edge, y=y, text=alt.Text("words:N")),
        head.encode(x=edge, y=theme.down(-7), text=alt.Text("words:N")),
    ]


def _marks(rows: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    base = theme.drawn(rows)
    kinds = ["", "fewer", "more"]
    colours = alt.Scale(domain=kinds, range=[theme.BLUE, theme.VERMILLION, theme.VERMILLION])
    shapes = alt.Scale(domain=kinds, range=["circle", "triangle-left", "triangle-right"])
    interval = base.mark_rule(strokeWidth=3).encode(
        x=_like(x, "low:Q"),
        x2=alt.X2("high:Q"),
        y=y,
        color=alt.Color("differs:N", legend=None, scale=colours),
    )
    mark = base.mark_point(size=105, stroke=theme.INK, strokeWidth=1, opacity=1).encode(
        x=x,
        y=y,
        fill=alt.Fill("differs:N", legend=None, scale=colours),
        shape=alt.Shape("differs:N", legend=None, scale=shapes),
        description=alt.Description("spoken:N"),
    )
    return [interval, *_ticks(rows, x, y), mark]


def _ticks(rows: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    """The share of the test's other bays."""
    compared = [row for row in rows if row["has_others"]]
    if not compared:
        return []
    tick = theme.drawn(compared).mark_tick(thickness=2.5, size=16, color=theme.INK)
    return [tick.encode(x=_like(x, "others:Q"), y=y)]


def _verdicts(rows: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    """In words what colour and shape say, where the row has room for it."""
    lowest = x["scale"]["domain"][0]
    told = [_verdict(row, lowest) for row in rows if row["differs"]]
    layers = []
    for align, away, up in (("left", 10, 0), ("right", -10, 0), ("center", 0, -11)):
        some = [row for row in told if row["align"] == align]
        if some:
            text = theme.drawn(some).mark_text(
                align=align, dx=away, dy=up, fontSize=13, fontWeight="bold"
            )
            layers.append(text.encode(x=_like(x, "at:Q"), y=y, text=alt.Text("verdict:N")))
    return layers


def _verdict(row: dict[str, Any], lowest: float) -> dict[str, Any]:
    """Between interval and tick where there is room, else beyond both, else over the interval."""
    ends = (row["low"], row["high"], row["others"])
    left, right, room = min(ends), max(ends), _ROOM * (1 - lowest)
    if row["others"] - row["high"] > room:
        return {**row, "align": "left", "at": row["high"]}
    if row["low"] - row["others"] > room:
        return {**row, "align": "right", "at": row["low"]}
    if 1 - right > room:
        return {**row, "align": "left", "at": right}
    if left - lowest > room:
        return {**row, "align": "right", "at": left}
    return {**row, "align": "center", "at": (row["low"] + row["high"]) / 2}


def _like(x: alt.X, shorthand: str) -> alt.X:
    """The same scale and axis for another column."""
    return alt.X(shorthand, title=None, axis=x["axis"], scale=x["scale"])
