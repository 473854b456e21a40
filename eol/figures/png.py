"""Turns drawn SVG into a small PNG for places that show none, as mail: white ground, few colours."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass

from PIL import Image

from eol.errors import ReportError

COLOURS = 64
_SCALE = 2.0
_GAP = 24
_WIDEST = 1280
_ONE = re.compile(r"<svg\b.*?</svg>", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Png:
    """A picture of twice the size it is shown at; width and height are as shown."""

    content: bytes
    width: int
    height: int


def svg_png(svg: str, *, name: str) -> Png:
    """Draw one or more `<svg>` elements as one PNG at twice their size, side by side where they fit.

    Args:
        svg: the elements, as `chart_svg` gives them.
        name: a word for the figure, for the message where it cannot be drawn.

    Returns:
        A PNG of at most 64 colours on white; dark mail readers may not turn its ground.

    Raises:
        ReportError: the figure cannot be drawn.
    """
    pictures = [_drawn(one, name) for one in _ONE.findall(svg)]
    if not pictures:
        raise ReportError("there is nothing to draw", where=f"figure {name}")
    whole = _side_by_side(pictures)
    # MAXCOVERAGE keeps the few signal colours true, where median cut turns them brown.
    few = whole.quantize(COLOURS, method=Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE)
    out = io.BytesIO()
    few.save(out, "PNG", optimize=True)
    return Png(out.getvalue(), round(whole.width / _SCALE), round(whole.height / _SCALE))


def _side_by_side(pictures: list[Image.Image]) -> Image.Image:
    places = list(_places([picture.size for picture in pictures]))
    pairs = list(zip(pictures, places, strict=True))
    width = max(left + picture.width for picture, (left, _) in pairs)
    height = max(top + picture.height for picture, (_, top) in pairs)
    whole = Image.new("RGB", (width, height), "white")
    for picture, place in pairs:
        whole.paste(picture, place, picture.getchannel("A"))
    return whole


def _places(sizes: list[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Left and top of each picture: rows as wide as a mail is read, one below the other."""
    left = top = tallest = 0
    for width, height in sizes:
        if left and left + width > _WIDEST:
            left, top, tallest = 0, top + tallest + _GAP, 0
        yield left, top
        left, tallest = left + width + _GAP, max(tallest, height)


def _drawn(svg: str, name: str) -> Image.Image:
    import vl_convert

    try:
        png = vl_convert.svg_to_png(svg, scale=_SCALE)
    except ValueError as error:
        raise ReportError(
            f"the picture cannot be drawn: {error}",
            where=f"figure {name}",
            hint="The mail was not made; report this with the shift it was asked for.",
        ) from error
    return Image.open(io.BytesIO(png)).convert("RGBA")
