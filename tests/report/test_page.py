"""The page as a whole: self-contained, the same every time, text stays text."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections import Counter
from dataclasses import replace
from functools import cache
from hashlib import sha256
from html import unescape

import pytest
from made_up_shift import (
    LOUD_CODES,
    code,
    empty_shift,
    header,
    loud_shift,
    pareto,
    quiet_shift,
    stress_shift,
)

from eol.facts.header import Header
from eol.report.page import POLICY, build_page, command, completeness, page_title

MAKES = {"loud": loud_shift, "quiet": quiet_shift, "empty": empty_shift, "stress": stress_shift}


@cache
def page(name: str) -> str:
    """Return the page of a made-up shift, built once."""
    return build_page(MAKES[name]())


@pytest.mark.parametrize("name", MAKES)
def test_nothing_from_outside(name: str) -> None:
    """No script, no address but the SVG namespace, and the policy that forbids both."""
    html = page(name)
    assert set(re.findall(r"https?://[^\"'<> ]+", html)) <= {
        "http://www.w3.org/2000/svg",
        "http://www.w3.org/1999/xlink",
    }
    assert "<script" not in html
    assert f'content="{POLICY}"' in unescape(html)


@pytest.mark.parametrize("name", MAKES)
def test_ids_are_unique_and_links_lead_somewhere(name: str) -> None:
    """Every id stands once, and every link leads to one of them."""
    ids = Counter(re.findall(r' id="([^"]+)"', page(name)))
    assert [place for place, times in ids.items() if times > 1] == []
    assert set(re.findall(r'href="#([^"]+)"', page(name))) - set(ids) == set()


@pytest.mark.slow
def test_same_bytes_in_two_processes() -> None:
    """The same facts give the same page in any process: no wall clock, no dice, no counters."""
    program = (
        "from hashlib import sha256; import made_up_shift as m;"
        "from eol.report.page import build_page;"
        "print(sha256(build_page(m.loud_shift()).encode()).hexdigest())"
    )
    assert build_page(loud_shift()) == page("loud")
    assert sha256(page("loud").encode()).hexdigest() == printed(program)


def test_charts_are_loaded_only_when_drawn() -> None:
    """A command that draws nothing does not pay for the drawing library."""
    program = (
        "import sys, eol.report.shift; print('altair' in sys.modules, 'vl_convert' in sys.modules)"
    )
    assert printed(program) == "False False"


def printed(program: str) -> str:
    """Return what a program prints in a process of its own."""
    paths = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "TZ": "Asia/Tokyo"}
    call = [sys.executable, "-c", program]
    return subprocess.run(
        call, capture_output=True, text=True, check=True, env=paths
    ).stdout.strip()


@pytest.mark.parametrize("name", MAKES)
def test_cautions_stand_on_every_page(name: str) -> None:
    """The page says up to when it knows, and that it releases nothing."""
    caution = (
        "From data received up to 14:41. A missing record is not a pass. This page releases no "
        "unit; release is by the plant's named authority."
    )
    assert unescape(page(name)).count(caution) == 2


@pytest.mark.parametrize("name", MAKES)
def test_page_never_vouches_for_a_unit(name: str) -> None:
    """Never OK, safe, clean, or good to ship."""
    text = re.sub(r"<style>.*?</style>|<[^>]+>", " ", page(name), flags=re.DOTALL)
    assert re.findall(r"\b(OK|safe|clean|good to ship)\b", text, re.IGNORECASE) == []


def test_safety_findings_stand_with_their_words() -> None:
    """VIN and handling words are on the first sheet, with the word on local law."""
    wall = page("loud").partition('class="rest"')[0]
    assert "0ZZKW1AB7T0100601" in wall
    assert "High voltage: only people trained for it may open this unit." in wall
    assert "Listed by VIN until a release. Local law and licensed practice go first." in wall


def test_no_green() -> None:
    """Nothing on the page is green: in no colour does green lead by far."""
    colours = set(re.findall(r"#[0-9A-Fa-f]{6}\b", page("loud")))
    channels = {c: [int(c[at : at + 2], 16) for at in (1, 3, 5)] for c in colours}
    assert {c for c, (r, g, b) in channels.items() if g > r + 24 and g > b + 24} == set()


@pytest.mark.parametrize(
    "text", ["<script>alert(1)</script>", '"><img src=x>', "{{ 7 * 7 }}", "\u202egnol", "x" * 200]
)
def test_text_of_files_stays_text(text: str) -> None:
    """Whatever a file holds, it is shown and never run."""
    facts = replace(loud_shift(), pareto=pareto(code("water", text, text, 3), *LOUD_CODES))
    html = build_page(facts)
    assert "<script" not in html
    assert "<img" not in html
    assert text in unescape(html)


def test_empty_shift_is_told_in_words() -> None:
    """An empty shift has no chart at all."""
    assert "<svg xmlns" not in page("empty")
    assert "No unit was tested in this shift" in page("empty")


def test_title_and_command() -> None:
    """The page says which shift it is of, and how it is made again."""
    assert page_title(header()) == "Final line · Fri 18 Sep 2026 · day shift (06:00–14:30)"
    assert command(header()) == "eol report --shift 2026-09-18/day"
    between = replace(header(), shift=None, starts_at=None, ends_at=None)
    assert command(between) == "eol report --shift 2026-09-18/between"
    assert page_title(between) == "Final line · Fri 18 Sep 2026 · between shifts"


def silent(count: int) -> Header:
    """Return a header with some silent stations."""
    made = header(heard=False)
    return replace(made, stations=(*made.stations, *[made.stations[1]] * (count - 1)))


def test_completeness_in_words() -> None:
    """A page is complete only when every station was heard from since the shift's end."""
    assert completeness(header()) == "complete: 3 of 3 stations in"
    assert completeness(silent(1)) == "provisional: 2 of 3 stations in, not W1"
    assert completeness(silent(4)) == "provisional: 2 of 6 stations in"
    assert completeness(replace(header(), stations=())) == "no station ran"


def test_paper() -> None:
    """The sheet is the one asked for."""
    assert "@page{size:A3 landscape" in build_page(empty_shift(), paper="A3")
