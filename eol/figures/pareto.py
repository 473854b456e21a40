"""Defects by code: bars, severity in letter and shape, what is usual, and the running share."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

import altair as alt

from eol.facts.pareto import Pareto, ParetoRow
from eol.figures import theme
from eol.figures.links import place_id
from eol.words import counted

HEIGHT = 208
_NAMES, _BARS, _SHARE = 200, 120, 26
_LEAST_ROW = 17
_REMARK = 1.9
"""Length of a bar with count and remark, in bars, where the bar is the longest."""


def pareto_chart(pareto: Pareto) -> theme.Chart:
    """Return the bars and, beside them, the running share; every bar is a link to its units.

    Args:
        pareto: at least one defect.
    """
    rows = _rows(pareto)
    height = max(HEIGHT, _LEAST_ROW * len(rows))
    bars = alt.layer(*_bars(rows), width=_BARS, height=height)
    share = alt.layer(*_shares(rows), width=_SHARE, height=height)
    return alt.hconcat(bars, share, spacing=44)


def code_name(row: ParetoRow) -> str:
    """Return what to call a code: its own name and its title."""
    if row.code == "UNSPECIFIED":
        return "Failed, no finding"
    return f"{row.code} {row.title}".strip()


def short_names(rows: Sequence[ParetoRow]) -> tuple[str, ...]:
    """Return what to print beside the bars: the title, with its code only where two would be one."""
    titles = [code_name(row) if not row.title else row.title for row in rows]
    twice = {title for title, times in Counter(titles).items() if times > 1}
    return tuple(
        code_name(row) if title in twice else title for row, title in zip(rows, titles, strict=True)
    )


def _rows(pareto: Pareto) -> list[dict[str, Any]]:
    shares = pareto.running_shares()
    named = zip(pareto.shown, short_names(pareto.shown), shares, strict=True)
    rows = [_row(row, name=name, share=share) for row, name, share in named]
    return rows + ([_others(pareto)] if pareto.others else [])


def _row(row: ParetoRow, *, name: str, share: float) -> dict[str, Any]:
    key = place_id("code", row.test, row.code)
    return {
        "key": key,
        "name": name,
        "bar": row.defects,
        "words": str(row.defects),
        "severity": row.severity if row.severity in theme.SEVERITIES else "",
        "low": row.usual.low if row.usual else None,
        "high": row.usual.high if row.usual else None,
        "remark": _remark(row),
        "fill": theme.BLUE,
        "share": share,
        "share_words": f"{share:.0%}",
        "href": f"#{key}",
        "spoken": _spoken(row),
    }


def _remark(row: ParetoRow) -> str:
    """What must be said in words beside the count."""
    return "safety-related" if row.safety_related else ""


def _spoken(row: ParetoRow) -> str:
    """What a bar says where one points at it."""
    usual = f", usual {row.usual.low:.0f} to {row.usual.high:.0f}" if row.usual else ""
    return f"{code_name(row)}: {row.defects}{usual}"


def _others(pareto: Pareto) -> dict[str, Any]:
    """The codes that are not drawn one by one; a bar longer than all others is left out."""
    count, defects = len(pareto.others), sum(row.defects for row in pareto.others)
    fits = defects <= 1.15 * pareto.shown[0].defects
    name = counted(count, "other code")
    return {
        "key": "others",
        "name": name,
        "bar": defects if fits else 0,
        "words": str(defects) if fits else f"{defects} together",
        "severity": "",
        "low": None,
        "high": None,
        "remark": "",
        "fill": theme.GREY,
        "share": 1.0,
        "share_words": "100%",
        "href": "#codes",
        "spoken": f"{name}: {defects}",
    }


def _down(rows: list[dict[str, Any]]) -> alt.Y:
    """One row a code, in the given order; the names are printed by hand beside the marks."""
    keys = [row["key"] for row in rows]
    bands = alt.Scale(type="band", domain=keys, paddingInner=0.24, paddingOuter=0.08)
    return alt.Y("key:N", title=None, sort=None, axis=None, scale=bands)


def _bars(rows: list[dict[str, Any]]) -> list[theme.Layer]:
    y = _down(rows)
    most = max(max(row["bar"] * _room(row), row["high"] or 0) for row in rows)
    x = alt.X("bar:Q", axis=None, scale=theme.scale(domain=[0, most]))
    base = theme.drawn(rows)
    names = base.mark_text(align="right", limit=_NAMES - 40, fontSize=15)
    counts = base.mark_text(align="left", dx=5, fontWeight="bold", fontSize=15)
    bars = base.mark_bar(height={"band": 0.62}).encode(
        x=x,
        y=y,
        color=alt.Color("fill:N", scale=None),
        href=alt.Href("href:N"),
        description=alt.Description("spoken:N"),
    )
    return [
        *_usual_ranges(rows, y, x),
        _baseline(),
        bars,
        names.encode(x=theme.across(-40), y=y, text=alt.Text("name:N")),
        counts.encode(x=x, y=y, text=alt.Text("words:N")),
        *_severities(rows, y),
        *_remarks(rows, x, y),
    ]


def _room(row: dict[str, Any]) -> float:
    """How much longer than its bar a row is with its remark."""
    return _REMARK if row["remark"] else 1.0


def _baseline() -> theme.Layer:
    line = theme.drawn([{}]).mark_rule(stroke=theme.LINE, strokeWidth=1)
    return line.encode(x=theme.across(0))


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
            x=theme.across(-27),
            y=y,
            shape=alt.Shape("severity:N", legend=None, scale=shapes),
            fill=alt.Fill("severity:N", legend=None, scale=fills),
        ),
        letter.encode(x=theme.across(-17), y=y, text=alt.Text("severity:N")),
    ]


def _usual_ranges(rows: list[dict[str, Any]], y: alt.Y, x: alt.X) -> list[theme.Layer]:
    """What is usual for each code, shaded behind its bar as in the other figures."""
    known = [row for row in rows if row["high"] is not None]
    if not known:
        return []
    band = theme.drawn(known).mark_bar(
        fill=theme.BAND, stroke=theme.LINE, strokeWidth=0.8, strokeDash=[3, 2]
    )
    return [band.encode(x=alt.X("low:Q", axis=None, scale=x["scale"]), x2=alt.X2("high:Q"), y=y)]


def _remarks(rows: list[dict[str, Any]], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    """What is not as usual, in words right of the count."""
    told = [row for row in rows if row["remark"]]
    if not told:
        return []
    text = theme.drawn(told).mark_text(fontSize=13, align="left", dx=30)
    return [text.encode(x=x, y=y, text=alt.Text("remark:N"))]


def _shares(rows: list[dict[str, Any]]) -> list[theme.Layer]:
    base = theme.drawn(rows)
    y = _down(rows)
    x = alt.X("share:Q", axis=None, scale=theme.scale(domain=[0, 1]))
    dot = base.mark_point(fill=theme.WHITE, stroke=theme.INK, strokeWidth=1.3, size=34, opacity=1)
    words = base.mark_text(align="right", fontSize=14, color=theme.MUTED)
    head = theme.drawn([{"words": "running share"}]).mark_text(
        align="right", fontSize=13, color=theme.MUTED
    )
    return [
        head.encode(x=theme.across(_SHARE + 44), y=theme.down(-7), text=alt.Text("words:N")),
        base.mark_line(stroke=theme.INK, strokeWidth=1.2, order=False).encode(x=x, y=y),
        dot.encode(x=x, y=y),
        words.encode(x=theme.across(_SHARE + 44), y=y, text=alt.Text("share_words:N")),
    ]
