"""First passes of each plant with their interval, one test beside the other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import altair as alt

from eol.figures import theme

_PLOT, _ROW = 330, 20
_WIDE = 0.9


def plant_chart(rows: Sequence[Mapping[str, object]]) -> theme.Chart:
    """Return the first-time-through of each plant in each test, a panel a test.

    Args:
        rows: at least one row with plant, test, ftt, low and high, shares of 1.
    """
    tests = sorted({str(row["test"]) for row in rows})
    lowest = min(float(str(row["low"])) for row in rows)
    panels = [_test(test, [row for row in rows if row["test"] == test], lowest) for test in tests]
    return alt.vconcat(*panels, spacing=12)


def _test(test: str, rows: list[Mapping[str, object]], lowest: float) -> theme.Layers:
    """One test; all tests have one scale."""
    digits = 0 if lowest < _WIDE else 1
    axis = alt.Axis(format=f".{digits}%", tickCount=5, domain=False, ticks=False)
    scale = theme.scale(domain=[max(0.0, lowest - 0.01), 1.0])
    x = alt.X("ftt:Q", title=None, axis=axis, scale=scale)
    low = alt.X("low:Q", title=None, axis=axis, scale=scale)
    y = alt.Y("plant:N", title=None, sort=None, axis=alt.Axis(domain=False, ticks=False))
    base = theme.drawn(
        [{name: row[name] for name in ("plant", "ftt", "low", "high")} for row in rows]
    )
    interval = base.mark_rule(strokeWidth=3, color=theme.BLUE).encode(x=low, x2="high:Q", y=y)
    mark = base.mark_point(size=80, filled=True, color=theme.INK, opacity=1).encode(x=x, y=y)
    return alt.layer(
        interval, mark, width=_PLOT, height=_ROW * len(rows), title=test.replace("_", " ")
    )
