"""The palette, held to the contrast that print and screen need."""

from __future__ import annotations

import pytest

from eol.figures import theme


def luminance(colour: str) -> float:
    """Return the relative luminance of a colour (WCAG 2.2)."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return sum(part * weight for part, weight in zip(linear, (0.2126, 0.7152, 0.0722), strict=True))


def contrast(one: str, other: str) -> float:
    """Return the contrast of two colours, 1 to 21."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize(("colour", "least"), [("INK", 7.0), ("MUTED", 4.5)])
def test_text_reads_on_white(colour: str, least: float) -> None:
    """Text has at least the contrast that small print needs."""
    assert contrast(getattr(theme, colour), theme.WHITE) >= least


@pytest.mark.parametrize("colour", ["BLUE", "VERMILLION", "GREY", "LINE"])
def test_marks_read_on_white(colour: str) -> None:
    """A mark has 3 to 1 on white, a limit line on its band too."""
    assert contrast(getattr(theme, colour), theme.WHITE) >= 3.0
    assert contrast(theme.LINE, theme.BAND) >= 3.0


def test_severity_is_never_colour_alone() -> None:
    """Each severity class has a shape of its own."""
    assert len(set(theme.SEVERITY_SHAPES.values())) == len(theme.SEVERITIES)


def test_labelled_axis_holds_quotes_as_text() -> None:
    """A label with a quote cannot end the expression it stands in."""
    axis = theme.labelled_axis({1: "1 d", 2: "it's"}).to_dict()
    assert axis["values"] == [1, 2]
    assert axis["labelExpr"] == "datum.value === 1 ? '1 d' : datum.value === 2 ? \"it's\" : ''"
