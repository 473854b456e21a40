"""Draws a chart as SVG that can stand inline in a page: no script, no outside address, stable."""

from __future__ import annotations

import re
from typing import Any

from eol.errors import ReportError
from eol.figures.theme import CONFIG, Chart

_ROOT = re.compile(r"<svg [^>]*?viewBox=\"([^\"]*)\"[^>]*>")
_BACKGROUND = re.compile(r"(<svg [^>]*>)<rect [^>]*/>")
_HREF = re.compile(r'xlink:href="[^"]*?(#[A-Za-z0-9-]+)"')
_CLIP = re.compile(r"\b(?:clip|gradient|pattern)\d+\b|\bgradient_\d+\b")
_GRAPHICS_ROLE = re.compile(r' (?:role="graphics-[^"]*"|aria-roledescription="[^"]*")')

_TRIES = 3


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
    spec = chart.to_dict(validate=False)
    spec["config"] = CONFIG
    return finished(_drawn(spec, name), name=name, label=label, linked=linked)


def finished(svg: str, *, name: str, label: str, linked: bool = False) -> str:
    """Make a drawn SVG fit to stand inline in a page.

    Links lose the address that the drawing library puts before them; ids are numbered anew
    with the figure's name; the size gives way to the viewBox; the white ground goes; roles that
    nest graphics go, and the whole gets one label.
    """
    svg = _HREF.sub(r'href="\1"', svg)
    svg = _numbered(svg, name)
    svg = _GRAPHICS_ROLE.sub("", svg)
    svg = _BACKGROUND.sub(r"\1", svg, count=1)
    role = "group" if linked else "img"
    opening = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="\\1" '
        f'preserveAspectRatio="xMidYMid meet" role="{role}" aria-label="{_attribute(label)}">'
    )
    return _ROOT.sub(opening, svg, count=1)


def _drawn(spec: dict[str, Any], name: str) -> str:
    """The SVG of a spec; a failed drawing spoils the next one too, so each is tried again."""
    import vl_convert

    failure: ValueError | None = None
    for _ in range(_TRIES):
        try:
            return str(vl_convert.vegalite_to_svg(spec, allowed_base_urls=[]))
        except ValueError as error:
            failure = error
    raise ReportError(
        f"the figure cannot be drawn: {failure}",
        where=f"figure {name}",
        hint="The page was not written; report this with the shift it was asked for.",
    ) from failure


def _numbered(svg: str, name: str) -> str:
    """Ids come from a counter of the process: number them in order of first use instead."""
    numbers: dict[str, str] = {}
    return _CLIP.sub(lambda m: numbers.setdefault(m[0], f"{name}-{len(numbers) + 1}"), svg)


def _attribute(text: str) -> str:
    """Text made fit for an attribute, and for use as a replacement pattern."""
    for sign, entity in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;")):
        text = text.replace(sign, entity)
    return text.replace("\\", "\\\\")
