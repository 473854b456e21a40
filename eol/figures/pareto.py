"""Defects by code: bars, severity in letter and shape, what is usual, and the running share."""

from __future__ import annotations

from typing import Any

import altair as alt

from eol.facts.pareto import Pareto, ParetoRow
from eol.figures import theme
from eol.figures.links import place_id

WIDTH, HEIGHT = 620, 208
_LABELS, _BARS, _SHARE = 262, 190, 66


def pareto_chart(pareto: Pareto) -> theme.Chart:
    """Return the bars and, beside them, the running share; every bar is a link to its units.

    Args:
        pareto: at least one defect.
    """
    rows = _rows(pareto)
    y = alt.Y(
        "key:N",
        title=None,
        sort=None,
        axis=_names(rows),
        scale=alt.Scale(domain=[row["key"] for row in rows], paddingInner=0.26, paddingOuter=0.1),
    )
    height = max(HEIGHT, 17 * len(rows))
    bars = alt.layer(*_bars(rows, y)).properties(width=_BARS, height=height)
    share = alt.layer(*_shares(rows)).properties(width=_SHARE, height=height)
    return alt.hconcat(bars, share, spacing=34)


def code_words(row: ParetoRow) -> str:
    """Return what to call a code: its own name and its title."""
    if row.code == "UNSPECIFIED":
        return "Failed, no finding"
    return f"{row.code} {row.title}".strip()


def _rows(pareto: Pareto) -> list[dict[str, Any]]:
    shares = pareto.running_shares()
    rows = [_row(row, share=share) for row, share in zip(pareto.shown, shares, strict=True)]
    if pareto.others:
        rows.append(_others(pareto))
    return rows


def _row(row: ParetoRow, *, share: float) -> dict[str, Any]:
    usual = row.usual
    return {
        "key": place_id("code", row.test, row.code),
        "name": code_words(row),
        "defects": row.defects,
        "severity": row.severity if row.severity in theme.SEVERITIES else "",
        "kind": "code",
        "usual": f"usual {usual.low:.0f} to {usual.high:.0f}" if usual else "",
        "beyond": row.above_usual,
        "share": share,
        "share_words": f"{share:.0%}",
        "href": "#" + place_id("code", row.test, row.code),
        "spoken": f"{code_words(row)}: {row.defects}",
    }


def _others(pareto: Pareto) -> dict[str, Any]:
    count = len(pareto.others)
    return {
        "key": "others",
        "name": f"{count} other code{'s' if count > 1 else ''}",
        "defects": sum(row.defects for row in pareto.others),
        "severity": "",
        "kind": "others",
        "usual": "",
        "beyond": False,
        "share": 1.0,
        "share_words": "100%",
        "href": "#codes",
        "spoken": f"{count} other codes",
    }


def _names(rows: list[dict[str, Any]]) -> alt.Axis:
    """The codes' names as labels; the expression holds positions, never text of files."""
    return alt.Axis(labels=False, ticks=False, domain=False, minExtent=_LABELS)


def _bars(rows: list[dict[str, Any]], y: alt.Y) -> list[theme.Layer]:
    most = max(row["defects"] for row in rows)
    x = alt.X(
        "defects:Q",
        title=None,
        axis=alt.Axis(tickMinStep=1, tickCount=4, grid=True, domain=False, ticks=False),
        scale=theme.scale(domain=[0, most]),
    )
    base = alt.Chart(theme.data(rows))
    code = alt.Chart(theme.data(row for row in rows if row["severity"]))
    colour = alt.Color(
        "kind:N",
        legend=None,
        scale=alt.Scale(domain=["code", "others"], range=[theme.BLUE, theme.GREY]),
    )
    return [
        base.mark_bar().encode(x=x, y=y, color=colour, href="href:N", description="spoken:N"),
        base.mark_text(align="right", limit=_LABELS - 44, fontSize=13).encode(
            x=alt.value(-42), y=y, text="name:N"
        ),
        _severity_marks(code, y),
        code.mark_text(align="left", fontWeight="bold", fontSize=13).encode(
            x=alt.value(-17), y=y, text="severity:N"
        ),
        base.mark_text(align="left", dx=5, fontWeight="bold", fontSize=14).encode(
            x=x, y=y, text="defects:Q"
        ),
        *_usual_words(rows, x, y, most),
    ]


def _severity_marks(code: alt.Chart, y: alt.Y) -> theme.Layer:
    severities = list(theme.SEVERITIES)
    shape = alt.Shape(
        "severity:N",
        legend=None,
        scale=alt.Scale(domain=severities, range=[theme.SEVERITY_SHAPES[s] for s in severities]),
    )
    fill = alt.Fill(
        "severity:N",
        legend=None,
        scale=alt.Scale(domain=severities, range=[theme.SEVERITY_FILLS[s] for s in severities]),
    )
    mark = code.mark_point(size=85, stroke=theme.INK, strokeWidth=1.3, opacity=1)
    return mark.encode(x=alt.value(-27), y=y, shape=shape, fill=fill)


def _usual_words(rows: list[dict[str, Any]], x: alt.X, y: alt.Y, most: int) -> list[theme.Layer]:
    """What is usual: right of the count, or in the bar where the count stands at its end."""
    outside = [row for row in rows if row["usual"] and row["defects"] < 0.55 * most]
    inside = [row for row in rows if row["usual"] and row["defects"] >= 0.55 * most]
    muted = alt.Chart(theme.data(outside)).mark_text(
        align="left", dx=30, color=theme.MUTED, fontSize=12
    )
    white = alt.Chart(theme.data(inside)).mark_text(
        align="right", dx=-6, color=theme.WHITE, fontSize=12
    )
    return [
        chart.encode(x=x, y=y, text="usual:N")
        for chart, kept in ((muted, outside), (white, inside))
        if kept
    ]


def _shares(rows: list[dict[str, Any]]) -> list[theme.Layer]:
    base = alt.Chart(theme.data(rows))
    y = alt.Y(
        "key:N",
        title=None,
        sort=None,
        axis=None,
        scale=alt.Scale(domain=[row["key"] for row in rows], paddingInner=0.26, paddingOuter=0.1),
    )
    x = alt.X(
        "share:Q",
        title="running share",
        axis=alt.Axis(values=[0, 1], format=".0%", domain=False, ticks=False),
        scale=theme.scale(domain=[0, 1]),
    )
    return [
        base.mark_line(stroke=theme.INK, strokeWidth=1.2, order=False).encode(x=x, y=y),
        base.mark_point(
            fill=theme.WHITE, stroke=theme.INK, strokeWidth=1.3, size=30, opacity=1
        ).encode(x=x, y=y),
        base.mark_text(align="left", fontSize=12, color=theme.MUTED).encode(
            x=alt.value(_SHARE + 10), y=y, text="share_words:N"
        ),
    ]
