"""The codes of the last 20 shifts: each rate with its interval, and how sure its rank is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import altair as alt

from eol.facts.ranks import RankedCode
from eol.figures import theme
from eol.figures.wording import range_words

HEIGHT = 208
SHOWN = 8
_NAMES, _PLOT, _COLUMN = 150, 96, 52
_RANKS = ("defects", "demerits", "minutes")


def rank_chart(ranked: Sequence[RankedCode]) -> theme.Chart:
    """Return the first eight codes: rate, interval, shrunk rate, and three ranges of ranks.

    Args:
        ranked: at least one code, most defects first.
    """
    rows = [_row(code) for code in ranked[:SHOWN]]
    most = max(row["high"] for row in rows)
    bands = alt.Scale(domain=[row["key"] for row in rows])
    y = alt.Y("key:N", title=None, sort=None, scale=bands, axis=None)
    x = alt.X(
        "rate:Q",
        title=None,
        axis=alt.Axis(tickCount=3, domain=False, ticks=False, labelOverlap=True),
        scale=theme.scale(domain=[0, most]),
    )
    layers = [*_words(rows, y), *_marks(rows, x, y)]
    return alt.layer(*layers, width=_PLOT, height=HEIGHT)


def _row(code: RankedCode) -> dict[str, Any]:
    name = code.title or code.code
    ranges = (code.place_range, code.by_demerits, code.by_minutes)
    words = dict(zip(_RANKS, map(range_words, ranges), strict=True))
    spoken = f"{name}: {code.per_100:.2f} per 100 at risk, {code.low:.2f} to {code.high:.2f}"
    return {
        "key": f"{code.test} {code.code}",
        "name": name,
        "rate": code.per_100,
        "low": code.low,
        "high": code.high,
        "shrunk": code.per_100 if code.shrunk is None else code.shrunk,
        "spoken": f"{spoken}; rank {words['defects']}",
        **words,
    }


def _words(rows: list[dict[str, Any]], y: alt.Y) -> list[theme.Layer]:
    """The code's name at the left, its ranges of ranks at the right under their heads."""
    base = theme.drawn(rows)
    name = base.mark_text(align="right", fontSize=15, limit=_NAMES)
    layers = [name.encode(x=theme.across(-10), y=y, text=alt.Text("name:N"))]
    for at, column in enumerate(_RANKS, start=1):
        edge = theme.across(_PLOT + 2 + at * _COLUMN)
        first = at == 1
        words = base.mark_text(
            align="right", fontSize=15 if first else 14, color=theme.INK if first else theme.MUTED
        )
        head = theme.drawn([{"words": column}]).mark_text(
            align="right", fontSize=12, color=theme.MUTED
        )
        layers += [
            words.encode(x=edge, y=y, text=alt.Text(f"{column}:N")),
            head.encode(x=edge, y=theme.down(-7), text=alt.Text("words:N")),
        ]
    return layers


def _marks(rows: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    base = theme.drawn(rows)
    interval = base.mark_rule(strokeWidth=3, color=theme.BLUE)
    shrunk = base.mark_tick(thickness=2.5, size=15, color=theme.INK)
    dot = base.mark_point(size=80, fill=theme.BLUE, stroke=theme.INK, strokeWidth=1, opacity=1)
    return [
        interval.encode(x=_like(x, "low:Q"), x2=alt.X2("high:Q"), y=y),
        shrunk.encode(x=_like(x, "shrunk:Q"), y=y),
        dot.encode(x=x, y=y, description=alt.Description("spoken:N")),
    ]


def _like(x: alt.X, shorthand: str) -> alt.X:
    """The same scale and axis for another column."""
    return alt.X(shorthand, title=None, axis=x["axis"], scale=x["scale"])
