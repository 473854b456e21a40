"""The yardstick: a bare script that imports Altair and vl-convert and draws so many charts as SVG."""

from __future__ import annotations

import sys

import altair as alt
import polars as pl
import vl_convert

rows = pl.DataFrame({"x": range(30), "y": [(7 * n) % 11 for n in range(30)], "low": 2, "high": 9})
base = alt.Chart(rows)
drawn = 0
for _ in range(int(sys.argv[1])):
    x, y = alt.X("x:Q", title=None), alt.Y("y:Q", title=None)
    band = base.mark_area(opacity=0.3).encode(x=x, y=alt.Y("low:Q"), y2="high:Q")
    words = base.mark_text(dy=-8).encode(x=x, y=y, text="y:N")
    chart = alt.layer(
        band, base.mark_line().encode(x=x, y=y), base.mark_point().encode(x=x, y=y), words
    )
    drawn += len(vl_convert.vegalite_to_svg(chart.properties(width=300, height=100).to_dict()))
print(drawn)
