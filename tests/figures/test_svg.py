"""A drawn figure, fit to stand inline in a page."""

from __future__ import annotations

import re
import subprocess
import sys
from hashlib import sha256

import altair as alt
import pytest
from made_up_shift import loud_shift

from eol.errors import ReportError
from eol.figures.formats import Form, written_as
from eol.figures.ftt_history import ftt_charts
from eol.figures.pareto import pareto_chart
from eol.figures.svg import chart_svg, finished, specs_kept
from eol.figures.theme import drawn


def pareto_svg() -> str:
    """Return the Pareto of the loud shift."""
    return chart_svg(pareto_chart(loud_shift().pareto), name="pareto", label="Pareto", linked=True)


def test_no_outside_address() -> None:
    """Links lead into the page; the only address is the SVG namespace."""
    svg = pareto_svg()
    assert 'href="#code-water-WL-SEAM"' in svg
    assert set(re.findall(r"https?://[^\"' ]+", svg)) <= {
        "http://www.w3.org/2000/svg",
        "http://www.w3.org/1999/xlink",
    }


def test_size_gives_way_to_the_box() -> None:
    """The figure fills its place: a viewBox, no size of its own, no white ground."""
    svg = pareto_svg()
    opening = svg[: svg.index(">") + 1]
    assert "viewBox=" in opening
    assert not re.search(r' (width|height)="', opening)
    assert 'role="group" aria-label="Pareto"' in opening
    assert not re.match(r"<svg [^>]*><rect", svg)


def test_no_nested_graphics_roles() -> None:
    """Readers of a screen hear one figure, not each of its marks."""
    assert "graphics-" not in pareto_svg()
    assert "aria-roledescription" not in pareto_svg()


@pytest.mark.slow
def test_same_text_in_another_process() -> None:
    """Two processes, one of which has drawn before, give the same bytes."""
    program = (
        "from hashlib import sha256; import made_up_shift as m;"
        "from eol.figures.ftt_history import ftt_charts; from eol.figures.svg import chart_svg;"
        "svg = chart_svg(ftt_charts(m.loud_shift().tests)[0], name='ftt', label='FTT');"
        "print(sha256(svg.encode()).hexdigest())"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, env=env()
    )
    pareto_svg()
    here = chart_svg(ftt_charts(loud_shift().tests)[0], name="ftt", label="FTT")
    assert sha256(here.encode()).hexdigest() == done.stdout.strip()


def env() -> dict[str, str]:
    """The environment of a child process that finds what this one found."""
    import os

    return {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}


def test_ids_are_numbered_by_figure() -> None:
    """Counters of the process become the figure's own, in order of first use."""
    svg = (
        '<svg viewBox="0 0 1 1"><clipPath id="clip41"/><g clip-path="url(#clip41)"/><a id="clip7"/>'
    )
    assert re.findall(r"zones-\d", finished(svg, name="zones", label="x")) == [
        "zones-1",
        "zones-1",
        "zones-2",
    ]


def test_label_is_text() -> None:
    """A label with signs of markup stays an attribute."""
    svg = finished('<svg viewBox="0 0 1 1"></svg>', name="x", label='<b> "5" \\1 & more')
    assert 'aria-label="&lt;b&gt; &quot;5&quot; \\1 &amp; more"' in svg


def test_text_of_files_is_escaped_in_marks() -> None:
    """Markup in a title is drawn as text."""
    chart = drawn([{"t": "<script>alert(1)</script>"}]).mark_text().encode(text="t:N")
    svg = chart_svg(chart, name="x", label="x")
    assert "<script" not in svg
    assert "&lt;script&gt;" in svg


def test_marks_say_what_they_are() -> None:
    """What a mark says is its title, and the name of the link it stands in."""
    svg = pareto_svg()
    assert 'aria-label="WL-SEAM Leak, rear quarter seam: 19, usual 0 to 6"><path' in svg
    assert "<title>WL-SEAM Leak, rear quarter seam: 19, usual 0 to 6</title></path></a>" in svg


def test_measures_are_rounded() -> None:
    """Measures have at most two decimals; words keep theirs."""
    svg = finished(
        '<svg viewBox="0 0 1 1"><path d="M1.23456,2e-7"/><text>1.23456</text>', name="x", label="x"
    )
    assert '<path d="M1.23,2e-7"/><text>1.23456</text>' in svg


def test_specs_are_kept_where_wanted() -> None:
    """A page that moves gets each figure's specification, and a place to draw it into."""
    with specs_kept() as specs:
        svg = pareto_svg()
    assert list(specs) == ["pareto"]
    assert svg.startswith('<div class="draw" id="draw-pareto"><svg ')
    assert pareto_svg().startswith("<svg ")


def test_decimal_comma() -> None:
    """Axes are drawn with the plant's decimal sign."""
    chart = drawn([{"a": 0.5}]).mark_point().encode(x=alt.X("a:Q", axis=alt.Axis(format=".1f")))
    with written_as(Form(decimal=",")):
        assert ">0,5</text>" in chart_svg(chart, name="x", label="x")


@pytest.mark.parametrize("text", ["a\x00b", "a\x07b", "a\x0cb", "a\x1fb", "a\ufffeb"])
def test_signs_that_xml_has_not(text: str) -> None:
    """A control sign of a file is drawn as the sign for what cannot be drawn; it never ends the process."""
    chart = drawn([{"t": text}]).mark_text().encode(text="t:N", y=alt.Y("t:N", sort=[text]))
    assert ">a\ufffdb</text>" in chart_svg(chart, name="x", label=text)


def test_backslashes_stay() -> None:
    """A backslash before such letters is text."""
    chart = drawn([{"t": r"C:\u0007 \bin"}]).mark_text().encode(text="t:N")
    assert r"C:\u0007 \bin" in chart_svg(chart, name="x", label="x")


def test_chart_that_cannot_be_drawn_is_told() -> None:
    """A failed drawing is an error with the figure's name, and does not spoil the next one."""
    broken = drawn([{"a": 1}]).mark_bar().encode(x="a:Q", href=alt.value("javascript:x"))
    with pytest.raises(ReportError, match="figure broken"):
        chart_svg(broken, name="broken", label="broken")
    assert pareto_svg().startswith("<svg ")
