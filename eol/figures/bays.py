"""First passes of each bay with its interval, beside the share of its test's other bays."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import altair as alt

from eol.facts.bays import Bay
from eol.figures import theme

WIDTH, HEIGHT = 620, 208
SHOWN_BAYS = 8
_LABELS, _PLOT = 170, 290


def bay_chart(bays: Sequence[Bay]) -> theme.Chart:
    """Return at most eight bays, those furthest from their test's others kept.

    Args:
        bays: at least one bay with a tested unit.
    """
    rows = [_row(bay) for bay in shown_bays(bays)]
    lowest = min([0.98, *(row["low"] for row in rows), *(row["others"] for row in rows)])
    x = alt.X(
        "ftt:Q",
        title=None,
        axis=alt.Axis(format=".0%", tickCount=4, domain=False, ticks=False),
        scale=theme.scale(domain=[max(0.0, lowest - 0.01), 1.0]),
    )
    y = alt.Y(
        "name:N",
        title=None,
        sort=None,
        scale=alt.Scale(domain=[row["name"] for row in rows]),
        axis=alt.Axis(domain=False, ticks=False, labelLimit=_LABELS, minExtent=_LABELS),
    )
    layers = [*_marks(rows, x, y), *_counts(rows, y)]
    return alt.layer(*layers).properties(width=_PLOT, height=HEIGHT)


def shown_bays(bays: Sequence[Bay]) -> tuple[Bay, ...]:
    """Return the bays to draw: all, or the eight furthest from their others, in plant order."""
    tested = [bay for bay in bays if bay.ftt is not None]
    furthest = sorted(tested, key=lambda bay: (-abs(bay.distance), bay.test, bay.name))
    kept = {(bay.test, bay.name) for bay in furthest[:SHOWN_BAYS]}
    return tuple(bay for bay in tested if (bay.test, bay.name) in kept)


def _row(bay: Bay) -> dict[str, Any]:
    ftt = bay.ftt or 0.0
    return {
        "name": f"{_short(bay.title)} {bay.name}",
        "ftt": ftt,
        "low": bay.low if bay.low is not None else ftt,
        "high": bay.high if bay.high is not None else ftt,
        "others": bay.others_ftt if bay.others_ftt is not None else 1.0,
        "has_others": bay.others_ftt is not None,
        "differs": bay.differs or "",
        "words": f"{bay.tested - bay.passed_first} of {bay.tested}",
        "verdict": f"passes {bay.differs}" if bay.differs else "",
    }


def _short(title: str) -> str:
    """The test's name without the word test, which every row would repeat."""
    return title.removesuffix(" test").removesuffix(" track")


def _marks(rows: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    base = alt.Chart(theme.data(rows))
    differs = alt.Chart(theme.data(row for row in rows if row["differs"]))
    colour = alt.Color(
        "differs:N",
        legend=None,
        scale=alt.Scale(
            domain=["", "fewer", "more"], range=[theme.BLUE, theme.VERMILLION, theme.VERMILLION]
        ),
    )
    shape = alt.Shape(
        "differs:N",
        legend=None,
        scale=alt.Scale(
            domain=["", "fewer", "more"], range=["circle", "triangle-left", "triangle-right"]
        ),
    )
    others = alt.Chart(theme.data(row for row in rows if row["has_others"]))
    return [
        base.mark_rule(strokeWidth=3).encode(x=_other(x, "low:Q"), x2="high:Q", y=y, color=colour),
        others.mark_tick(thickness=2.5, size=17, color=theme.INK).encode(
            x=_other(x, "others:Q"), y=y
        ),
        base.mark_point(size=95, stroke=theme.INK, strokeWidth=1, opacity=1, filled=True).encode(
            x=x, y=y, fill=_as_fill(colour), shape=shape
        ),
        differs.mark_text(dy=-12, fontSize=12, fontWeight="bold").encode(
            x=x, y=y, text="verdict:N"
        ),
    ]


def _counts(rows: list[dict[str, Any]], y: alt.Y) -> list[theme.Layer]:
    text = alt.Chart(theme.data(rows)).mark_text(align="right", fontSize=13, color=theme.MUTED)
    head = alt.Chart(theme.data([{"word": "not passed"}])).mark_text(
        align="right", fontSize=12, color=theme.MUTED
    )
    edge = alt.value(_PLOT + 84)
    return [
        text.encode(x=edge, y=y, text="words:N"),
        head.encode(x=edge, y=alt.value(-9), text="word:N"),
    ]


def _other(x: alt.X, shorthand: str) -> alt.X:
    return alt.X(shorthand, title=None, axis=x["axis"], scale=x["scale"])


def _as_fill(colour: alt.Color) -> alt.Fill:
    return alt.Fill("differs:N", legend=None, scale=colour["scale"])
