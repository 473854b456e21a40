"""Pictures for mails: white ground, true colours, as wide as a mail is read."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from eol.errors import ReportError
from eol.figures.png import COLOURS, svg_png


def square(side: int, colour: str = "#D55E00") -> str:
    """An SVG with a square in the middle of twice its side."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {2 * side} {2 * side}">'
        f'<rect x="{side // 2}" y="{side // 2}" width="{side}" height="{side}" fill="{colour}"/></svg>'
    )


def test_colours_stay_true_on_white() -> None:
    """The vermillion of a mark is the same afterwards, and what was clear is white."""
    png = svg_png(square(20), name="x")
    picture = Image.open(io.BytesIO(png.content)).convert("RGB")
    assert (png.width, png.height, picture.size) == (40, 40, (80, 80))
    assert (picture.getpixel((40, 40)), picture.getpixel((1, 1))) == ((213, 94, 0), (255, 255, 255))
    colours = picture.getcolors()
    assert colours is not None
    assert len(colours) <= COLOURS


@pytest.mark.parametrize(("count", "width", "rows"), [(2, 412, 1), (4, 624, 2)])
def test_several_side_by_side_then_below(count: int, width: int, rows: int) -> None:
    """Figures of one panel stand beside each other as far as a mail is wide."""
    png = svg_png(square(100) * count, name="x")
    assert png.width == width
    assert png.height == rows * 200 + (rows - 1) * 12


def test_nothing_to_draw() -> None:
    """Without an SVG there is no picture."""
    with pytest.raises(ReportError, match="nothing to draw"):
        svg_png("words", name="x")
