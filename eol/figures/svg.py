"""Draws a chart as SVG that can stand inline in a page: no script, no outside address, stable."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any

from eol.figures.drawing import drawn
from eol.figures.formats import decimal_sign
from eol.figures.theme import Chart, config

_ROOT = re.compile(r"<svg [^>]*?viewBox=\"([^\"]*)\"[^>]*>")
_BACKGROUND = re.compile(r"(<svg [^>]*>)<rect [^>]*/>")
_HREF = re.compile(r'xlink:href="[^"]*?(#[A-Za-z0-9-]+)"')
_CLIP = re.compile(r"\b(?:clip|gradient|pattern)\d+\b|\bgradient_\d+\b")
_GRAPHICS_ROLE = re.compile(r' (?:role="graphics-[^"]*"|aria-roledescription="[^"]*")')
_CLASS = re.compile(r' class="(?:mark-|background|role-)[^"]*"')
_MEASURE = re.compile(r' (?:d|transform|x|y|x2|y2|width|height)="[^"]*"')
_LONG_NUMBER = re.compile(r"-?\d+\.\d{3,}(?:e-?\d+)?")
_SPOKEN = re.compile(r'<(path|line|text)((?: [\w:-]+="[^"]*")*?) aria-label="([^"]*)"([^>]*?)/>')
_LINK = re.compile(r'<a href="([^"]*)">(?=<path[^>]*><title>([^<]*)</title>)')

_NO_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")
_NO_XML_ESCAPED = re.compile(r"(?<!\\)((?:\\\\)*)\\(?:u00[01][0-9a-f]|[bf])")

Specs = dict[str, dict[str, Any]]
"""Vega-Lite specifications by the figure's name."""

_KEPT: ContextVar[Specs | None] = ContextVar("kept", default=None)


@contextmanager
def specs_kept() -> Iterator[Specs]:
    """Keep the specification of every figure drawn within the block, for a page that moves.

    Each figure then stands in an element of its own, `draw-NAME`, that a script can draw into.
    """
    specs: Specs = {}
    before = _KEPT.set(specs)
    try:
        yield specs
    finally:
        _KEPT.reset(before)


def chart_svg(chart: Chart, *, name: str, label: str, linked: bool = False) -> str:
    """Draw a chart as one `<svg>` element.

    Args:
        chart: an Altair chart; every channel must name its type.
        name: a plain word, unique on the page; ids within the figure begin with it.
        label: what the figure shows, in words, for those who do not see it.
        linked: True where marks of the figure are links into the page.

    Returns:
        The element as text; the same chart gives the same text in every process.

    Raises:
        ReportError: the chart cannot be drawn.
    """
    spec: dict[str, Any] = fit_for_xml(chart.to_dict(validate=False))
    spec["config"] = config(decimal_sign())
    svg = finished(drawn(spec, name), name=name, label=label, linked=linked)
    kept = _KEPT.get()
    if kept is None:
        return svg
    kept[name] = spec
    return f'<div class="draw" id="draw-{name}">{svg}</div>'


def fit_for_xml(part: Any) -> Any:
    """Return a specification in which signs that XML has not stand as U+FFFD.

    The drawing library ends the whole process where it meets one. Data stand in it as JSON text,
    so that such a sign may stand escaped.
    """
    if isinstance(part, str):
        return _NO_XML_ESCAPED.sub("\\1\ufffd", _NO_XML.sub("\ufffd", part))
    if isinstance(part, dict):
        return {key: fit_for_xml(value) for key, value in part.items()}
    return [fit_for_xml(each) for each in part] if isinstance(part, list) else part


def finished(svg: str, *, name: str, label: str, linked: bool = False) -> str:
    """Make a drawn SVG fit to stand inline in a page.

    Links lose the address that the drawing library puts before them; ids are numbered anew
    with the figure's name; the size gives way to the viewBox; the white ground goes; roles that
    nest graphics go, and the whole gets one label. What a mark says is its title, and the name
    of its link; measures are rounded to hundredths of a pixel.
    """
    svg = _HREF.sub(r'href="\1"', svg)
    svg = _numbered(svg, name)
    svg = _GRAPHICS_ROLE.sub("", svg)
    svg = _CLASS.sub("", svg)
    svg = _BACKGROUND.sub(r"\1", svg, count=1)
    svg = _MEASURE.sub(lambda measure: _LONG_NUMBER.sub(_rounded, measure[0]), svg)
    svg = _SPOKEN.sub(r"<\1\2\4><title>\3</title></\1>", svg)
    svg = _LINK.sub(r'<a href="\1" aria-label="\2">', svg)
    role = "group" if linked else "img"
    opening = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="\\1" '
        f'preserveAspectRatio="xMinYMin meet" role="{role}" aria-label="{_attribute(label)}">'
    )
    return _ROOT.sub(opening, svg, count=1)


def _rounded(number: re.Match[str]) -> str:
    return f"{float(number[0]):.2f}".rstrip("0").rstrip(".")


def _numbered(svg: str, name: str) -> str:
    """Ids come from a counter of the process: number them in order of first use instead."""
    numbers: dict[str, str] = {}
    return _CLIP.sub(lambda m: numbers.setdefault(m[0], f"{name}-{len(numbers) + 1}"), svg)


def _attribute(text: str) -> str:
    """Text made fit for an attribute, and for use as a replacement pattern."""
    text = _NO_XML.sub("\ufffd", text)
    for sign, entity in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;")):
        text = text.replace(sign, entity)
    return text.replace("\\", "\\\\")
