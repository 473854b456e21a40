"""Defects by code: bars, severity in letter and shape, what is usual, and the running share."""

from __future__ import annotations

from typing import Any

import altair as alt

from eol.facts.pareto import Pareto, ParetoRow
from eol.figures import theme
from eol.figures.links import place_id

HEIGHT = 212
_NAMES, _BARS, _SHARE = 268, 216, 60
_LEAST_ROW = 17
_LONG_BAR = 0.55
"""Share of the longest bar from which what is usual is written into the bar."""


def pareto_chart(pareto: Pareto) -> theme.Chart:
    """Return the bars and, beside them, the running share; every bar is a link to its units.

    Args:
        pareto: at least one defect.
    """
    rows = _rows(pareto)
    height = max(HEIGHT, _LEAST_ROW * len(rows))
    bars = alt.layer(*_bars(rows)).properties(width=_BARS, height=height)
    share = alt.layer(*_shares(rows)).properties(width=_SHARE, height=height)
    return alt.hconcat(bars, share, spacing=48)


def code_name(row: ParetoRow) -> str:
    """Return what to call a code: its own name and its title."""
    if row.code == "UNSPECIFIED":
        return "Failed, no finding"
    return f"{row.code} {row.title}".strip()


def _rows(pareto: Pareto) -> list[dict[str, Any]]:
    shares = pareto.running_shares()
    rows = [_row(row, share=share) for row, share in zip(pareto.shown, shares, strict=True)]
    return rows + ([_others(pareto)] if pareto.others else [])


def _row(row: ParetoRow, *, share: float) -> dict[str, Any]:
    key = place_id("code", row.test, row.code)
    return {
        "key": key,
        "name": code_name(row),
        "bar": row.defects,
        "words": str(row.defects),
        "severity": row.severity if row.severity in theme.SEVERITIES else "",
        "usual": _usual(row),
        "fill": theme.BLUE,
        "share": share,
        "share_words": f"{share:.0%}",
        "href": f"#{key}",
        "spoken": f"{code_name(row)}: {row.defects}",
    }


def _usual(row: ParetoRow) -> str:
    if row.usual is None:
        return "safety-related" if row.safety_related else ""
    usual = f"usual {row.usual.low:.0f} to {row.usual.high:.0f}"
    return f"safety-related, {usual}" if row.safety_related else usual


def _others(pareto: Pareto) -> dict[str, Any]:
    """The codes that are not drawn one by one; a bar longer than all others is left out."""
    count, defects = len(pareto.others), sum(row.defects for row in pareto.others)
    fits = defects <= 1.15 * pareto.shown[0].defects
    name = f"{count} other code{'s' if count > 1 else ''}"
    return {
        "key": "others",
        "name": name,
        "bar": defects if fits else 0,
        "words": str(defects) if fits else f"{defects} together",
        "severity": "",
        "usual": "",
        "fill": theme.GREY,
        "share": 1.0,
        "share_words": "100%",
        "href": "#codes",
        "spoken": f"{name}: {defects}",
    }


def _down(rows: list[dict[str, Any]]) -> alt.Y:
    """One row a code, in the given order; the names are printed by hand beside the marks."""
    keys = [row["key"] for row in rows]
    bands = alt.Scale(domain=keys, paddingInner=0.24, paddingOuter=0.08)
    return alt.Y("key:N", title=None, sort=None, axis=None, scale=bands)


def _bars(rows: list[dict[str, Any]]) -> list[theme.Layer]:
    y = _down(rows)
    most = max(row["bar"] for row in rows)
    x = alt.X("bar:Q", axis=None, scale=theme.scale(domain=[0, most]))
    base = theme.drawn(rows)
    names = base.mark_text(align="right", limit=_NAMES - 44, fontSize=14)
    counts = base.mark_text(align="left", dx=5, fontWeight="bold", fontSize=15)
    bars = base.mark_bar().encode(
        x=x,
        y=y,
        color=alt.Color("fill:N", scale=None),
        href="href:N",
        description="spoken:N",
    )
    return [
        _baseline(),
        bars,
        names.encode(x=alt.value(-44), y=y, text="name:N"),
        counts.encode(x=x, y=y, text="words:N"),
        *_severities(rows, y),
        *_usual_words(rows, x, y, most),
    ]


def _baseline() -> theme.Layer:
    line = theme.drawn([{}]).mark_rule(stroke=theme.LINE, strokeWidth=1)
    return line.encode(x=alt.value(0))


def _severities(rows: list[dict[str, Any]], y: alt.Y) -> list[theme.Layer]:
    """The class of each code as a shape and as a letter."""
    classed = [row for row in rows if row["severity"]]
    if not classed:
        return []
    names = list(theme.SEVERITIES)
    shapes = alt.Scale(domain=names, range=[theme.SEVERITY_SHAPES[name] for name in names])
    fills = alt.Scale(domain=names, range=[theme.SEVERITY_FILLS[name] for name in names])
    base = theme.drawn(classed)
    mark = base.mark_point(size=95, stroke=theme.INK, strokeWidth=1.3, opacity=1)
    letter = base.mark_text(align="left", fontWeight="bold", fontSize=14)
    return [
        mark.encode(
            x=alt.value(-29),
            y=y,
            shape=alt.Shape("severity:N", legend=None, scale=shapes),
            fill=alt.Fill("severity:N", legend=None, scale=fills),
        ),
        letter.encode(x=alt.value(-18), y=y, text="severity:N"),
    ]


def _usual_words(rows: list[dict[str, Any]], x: alt.X, y: alt.Y, most: int) -> list[theme.Layer]:
    """What is usual: right of the count, or in the bar where the bar is long."""
    told = [row for row in rows if row["usual"]]
    beside = [row for row in told if row["bar"] < _LONG_BAR * most]
    within = [row for row in told if row["bar"] >= _LONG_BAR * most]
    muted = {"align": "left", "dx": 32, "color": theme.MUTED}
    white = {"align": "right", "dx": -6, "color": theme.WHITE}
    return [
        theme.drawn(some).mark_text(fontSize=12, **how).encode(x=x, y=y, text="usual:N")
        for some, how in ((beside, muted), (within, white))
        if some
    ]


def _shares(rows: list[dict[str, Any]]) -> list[theme.Layer]:
    base = theme.drawn(rows)
    y = _down(rows)
    x = alt.X("share:Q", axis=None, scale=theme.scale(domain=[0, 1]))
    dot = base.mark_point(fill=theme.WHITE, stroke=theme.INK, strokeWidth=1.3, size=34, opacity=1)
    words = base.mark_text(align="right", fontSize=13, color=theme.MUTED)
    return [
        base.mark_line(stroke=theme.INK, strokeWidth=1.2, order=False).encode(x=x, y=y),
        dot.encode(x=x, y=y),
        words.encode(x=alt.value(_SHARE + 44), y=y, text="share_words:N"),
    ]
