"""What all figures share: palette, type, marks. Okabe and Ito's colours, never colour alone."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any

import altair as alt
from altair.utils.schemapi import debug_mode

INK = "#1B1F24"
MUTED = "#50565E"
LINE = "#7B8794"
GRID = "#D5DAE0"
BAND = "#E4EAF0"
GREY = "#868F99"
BLUE = "#0072B2"
VERMILLION = "#D55E00"
ORANGE = "#E69F00"
SKY = "#56B4E9"
WHITE = "#FFFFFF"

FONT = "Arial, Liberation Sans, Helvetica, DejaVu Sans Condensed, sans-serif"

SEVERITIES = ("A", "B", "C", "D")
SEVERITY_SHAPES = {"A": "diamond", "B": "triangle-up", "C": "circle", "D": "square"}
SEVERITY_FILLS = {"A": VERMILLION, "B": ORANGE, "C": WHITE, "D": WHITE}

CONFIG: dict[str, Any] = {
    "aria": False,
    "background": WHITE,
    "font": FONT,
    "padding": 2,
    "view": {"stroke": None},
    "axis": {
        "domainColor": LINE,
        "tickColor": LINE,
        "gridColor": GRID,
        "labelColor": INK,
        "labelFontSize": 13,
        "titleColor": MUTED,
        "titleFontSize": 13,
        "titleFontWeight": "normal",
        "labelOverlap": False,
    },
    "title": {"anchor": "start", "color": INK, "fontSize": 15, "fontWeight": "bold", "offset": 6},
    "text": {"color": INK, "fontSize": 13},
}

_DECIMAL_COMMA = {"decimal": ",", "thousands": "\u202f", "grouping": [3], "currency": ["", ""]}


def config(decimal: str) -> dict[str, Any]:
    """Return what every chart is drawn with, its axes with the plant's decimal sign."""
    return CONFIG if decimal == "." else {**CONFIG, "locale": {"number": _DECIMAL_COMMA}}


@contextmanager
def built_quickly() -> Iterator[None]:
    """Build charts without checking each part against the schema; the tests check them whole."""
    with debug_mode(False):
        yield


def across(pixels: float) -> Any:
    """Return a fixed place from the left; cheaper than `alt.value`, which looks the schema through."""
    return alt.XValue(pixels)  # type: ignore[no-untyped-call]


def down(pixels: float) -> Any:
    """Return a fixed place from above."""
    return alt.YValue(pixels)  # type: ignore[no-untyped-call]


def down_to(pixels: float) -> Any:
    """Return where something that begins at `down` ends."""
    return alt.Y2Value(pixels)  # type: ignore[no-untyped-call]


Layer = Any
"""One layer of a chart; Altair types what `encode` gives as Any."""

Layers = alt.LayerChart | alt.FacetChart
"""Layers over each other."""

Chart = alt.TopLevelMixin
"""Any Altair chart that can be drawn on its own."""


def data(rows: Iterable[Mapping[str, Any]]) -> alt.InlineData:
    """Return rows as inline data; each channel must then name its type.

    The rows go in as one text: Altair copies a chart for each layer it is put into, and copying
    a text costs nothing.
    """
    text = json.dumps([dict(row) for row in rows], ensure_ascii=False, separators=(",", ":"))
    return alt.InlineData(values=text, format=alt.JsonDataFormat(type="json"))


def drawn(rows: Iterable[Mapping[str, Any]]) -> Layer:
    """Return a chart of some rows, ready for a mark."""
    return alt.Chart(data(rows))


def scale(**options: Any) -> alt.Scale:
    """Return a scale that takes its domain as given, without rounding it up."""
    return alt.Scale(nice=False, zero=False, **options)


def labelled_axis(labels: Mapping[float, str], **options: Any) -> alt.Axis:
    """Return an axis with a tick at each key, labelled in the given words."""
    cases = "".join(f"datum.value === {key} ? {text!r} : " for key, text in labels.items())
    return alt.Axis(values=list(labels), labelExpr=f"{cases}''", **options)
