"""Actions: the share of units with the code before and after each, with intervals and the verdict in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import altair as alt

from eol.facts.action_sides import Side
from eol.facts.actions import Action
from eol.figures import theme
from eol.figures.formats import plain
from eol.statistics.rate import poisson_exact

SHOWN = 5
_ROW, _LEAST_HEIGHT = 42, 110
_NAMES, _PLOT, _VERDICT = 178, 230, 158
_APART = 0.22
_LONGEST = 2.5
"""How far the scale reaches, in the highest of all shares: an interval of few units may go on beyond."""


def action_chart(actions: Sequence[Action]) -> theme.Chart:
    """Return at most five actions: ○ before, filled after, per 100 units.

    Args:
        actions: at least one action that has cut in and has a unit on a side, the first to be shown first.
    """
    shown = shown_actions(actions)
    marks = [mark for action in shown for mark in _marks(action)]
    most = max(0.1, _LONGEST * max(mark["share"] for mark in marks))
    highest = min(most, max(mark["high"] for mark in marks))
    rows = [mark | {"high": min(mark["high"], highest)} for mark in marks]
    bands = alt.Scale(domain=[action.action_id for action in shown], paddingOuter=0.1)
    y = alt.Y("action:N", title=None, sort=None, scale=bands, axis=None)
    x = alt.X(
        "share:Q",
        title=None,
        axis=alt.Axis(tickCount=3, domain=False, ticks=False),
        scale=theme.scale(domain=[0, highest]),
    )
    layers = [*_words(shown, y), *_points(rows, x, y)]
    height = max(_LEAST_HEIGHT, _ROW * len(shown))
    return alt.layer(*layers, width=_PLOT, height=height)


def shown_actions(actions: Sequence[Action]) -> tuple[Action, ...]:
    """Return the actions to draw: those that cut in, the latest first, at most five."""
    told = [one for one in actions if one.cut_in and (one.baseline.used.units or one.after.units)]
    latest = sorted(told, key=lambda one: one.from_build_seq or 0, reverse=True)
    return tuple(latest[:SHOWN])


def short_verdict(action: Action) -> str:
    """Return the verdict as it fits beside a mark: `too early: 409 units`."""
    more = action.effect.more_units
    words = action.verdict if more is None else f"{action.verdict}: {more:,} units"
    return f"{words}, but back" if action.back else words


def ratio_words(action: Action) -> str:
    """Return the ratio with its interval as it fits below the verdict; empty where there is none."""
    effect = action.effect
    if effect.ratio is None:
        return ""
    return f"× {plain(effect.ratio, 2)} ({plain(effect.low, 2)}–{plain(effect.high, 2)})"


def _marks(action: Action) -> list[dict[str, Any]]:
    sides = (("before", action.baseline.used, -_APART), ("after", action.after, _APART))
    return [_mark(action, *side) for side in sides if side[1].units]


def _mark(action: Action, when: str, side: Side, offset: float) -> dict[str, Any]:
    rate = poisson_exact(side.with_code, side.units)
    spoken = f"{action.title or action.code} {when}: {side.with_code} of {side.units}"
    return {
        "action": action.action_id,
        "when": when,
        "share": 100 * side.with_code / side.units,
        "low": 100 * (rate.low or 0.0),
        "high": 100 * (rate.high or 0.0),
        "offset": offset,
        "spoken": spoken,
    }


def _words(actions: Sequence[Action], y: alt.Y) -> list[theme.Layer]:
    """The code's title and what is done at the left, the verdict at the right."""
    rows = [
        {
            "action": one.action_id,
            "name": one.title or one.code,
            "what": one.what or one.action_id,
            "verdict": short_verdict(one),
            "ratio": ratio_words(one),
        }
        for one in actions
    ]
    base = theme.drawn(rows)
    left, right = theme.across(-12), theme.across(_PLOT + 14)
    name = base.mark_text(align="right", dy=-8, fontSize=14, limit=_NAMES)
    what = base.mark_text(align="right", dy=9, fontSize=12, limit=_NAMES, color=theme.MUTED)
    verdict = base.mark_text(align="left", dy=-8, fontSize=14, fontWeight="bold", limit=_VERDICT)
    ratio = base.mark_text(align="left", dy=9, fontSize=12, color=theme.MUTED)
    return [
        name.encode(x=left, y=y, text=alt.Text("name:N")),
        what.encode(x=left, y=y, text=alt.Text("what:N")),
        verdict.encode(x=right, y=y, text=alt.Text("verdict:N")),
        ratio.encode(x=right, y=y, text=alt.Text("ratio:N")),
        # An empty word at the right edge, so that the chart is as wide whatever the verdicts are.
        theme.drawn([{"words": "\u2007"}])
        .mark_text(align="right", fontSize=12)
        .encode(x=theme.across(_PLOT + 14 + _VERDICT), y=theme.down(-4), text=alt.Text("words:N")),
    ]


def _points(rows: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    within = alt.YOffset("offset:Q", scale=alt.Scale(domain=[-0.8, 0.8]))
    base = theme.drawn(rows)
    fill = alt.Fill(
        "when:N",
        legend=None,
        scale=alt.Scale(domain=["before", "after"], range=[theme.WHITE, theme.BLUE]),
    )
    interval = base.mark_rule(strokeWidth=2.5, color=theme.BLUE)
    dot = base.mark_point(size=95, stroke=theme.BLUE, strokeWidth=2, opacity=1)
    return [
        interval.encode(x=_like(x, "low:Q"), x2=alt.X2("high:Q"), y=y, yOffset=within),
        dot.encode(x=x, y=y, yOffset=within, fill=fill, description=alt.Description("spoken:N")),
    ]


def _like(x: alt.X, shorthand: str) -> alt.X:
    """The same scale and axis for another column."""
    return alt.X(shorthand, title=None, axis=x["axis"], scale=x["scale"])
