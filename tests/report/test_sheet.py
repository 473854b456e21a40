"""The page as a sheet of paper without a browser."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

import pytest
from made_up_shift import HANDLING, empty_shift, loud_shift, quiet_shift, stress_shift

from eol.report import page
from eol.report.sheet import WIDE, laid_out
from eol.report.type_width import text_width

MAKES = {"loud": loud_shift, "quiet": quiet_shift, "empty": empty_shift, "stress": stress_shift}


@cache
def sheet(name: str, paper: str = "A4") -> dict[str, Any]:
    """Return the sheet of a made-up shift, laid out once."""
    return laid_out(page.page_words(MAKES[name](), paper=paper))


def words(name: str) -> str:
    """Return all text of a sheet in the order in which it was set."""
    return " ".join(text["words"] for text in sheet(name)["texts"])


def reach(text: dict[str, Any]) -> tuple[float, float]:
    """Return where a line of text begins and ends."""
    wide = text_width(text["words"], text["size"], bold=text["bold"])
    return (
        (text["x"] - wide, text["x"]) if text["anchor"] == "end" else (text["x"], text["x"] + wide)
    )


@pytest.mark.parametrize("name", MAKES)
def test_no_line_of_text_leaves_the_sheet(name: str) -> None:
    """Whatever the shift holds, every line of text stands on the sheet."""
    ends = [(*reach(text), text["words"]) for text in sheet(name)["texts"]]
    beyond = [words for left, right, words in ends if left < -0.01 or right > WIDE + 0.01]
    assert beyond == []


@pytest.mark.parametrize("name", MAKES)
def test_no_two_lines_of_text_cover_each_other(name: str) -> None:
    """No line of text stands on another."""
    placed = [
        (t["y"], *reach(t), t["size"], t["words"]) for t in sheet(name)["texts"] if t["words"]
    ]
    met = [
        (one[4], two[4])
        for at, one in enumerate(placed)
        for two in placed[at + 1 :]
        if abs(one[0] - two[0]) < 0.7 * min(one[3], two[3])
        and min(one[2], two[2]) - max(one[1], two[1]) > 0.05
    ]
    assert met == []


def test_cautions_and_handling_words_are_whole() -> None:
    """What must never be cut stands whole on the sheet."""
    for name in ("loud", "stress"):
        assert HANDLING in words(name)
        assert "A missing record is not a pass. This page releases no unit;" in words(name)
        assert "Local law and licensed practice go first." in words(name)


def test_figures_are_nested_without_links() -> None:
    """Each figure is a drawing in its place; paper has nothing to click."""
    figures = sheet("loud")["figures"]
    assert len(figures) >= 9
    assert not any("<a " in figure for figure in figures)
    assert all(re.match(r'<svg x="[\d.]+" y="[\d.]+" width=', figure) for figure in figures)


def test_text_of_files_stays_text() -> None:
    """Markup in a title is set as text, and so are signs that run from right to left."""
    pdf = page.build_pdf(page_with("<script>alert(1)</script> \u202e\u05d0 " + "x" * 200))
    assert pdf.startswith(b"%PDF-")


def page_with(title: str) -> Any:
    """Return the empty shift of a plant of that name."""
    from dataclasses import replace

    facts = empty_shift()
    return replace(facts, header=replace(facts.header, plant=title))


@pytest.mark.slow
def test_same_pdf_twice() -> None:
    """The same facts give the same file."""
    assert page.build_pdf(quiet_shift()) == page.build_pdf(quiet_shift())
