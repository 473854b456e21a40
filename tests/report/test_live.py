"""A page whose figures answer to the pointer."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from dataclasses import replace
from functools import cache
from hashlib import sha256
from html import unescape

import pytest
from made_up_shift import loud_shift

from eol.report.live import live_scripts, script_sources
from eol.report.page import POLICY, build_page

HOSTILE = "</script><script>alert(1)</script>"


@cache
def live_page() -> str:
    """Return the loud shift's page, with a test that would end the script if it could."""
    facts = loud_shift()
    named = (replace(facts.tests[0], title=HOSTILE), *facts.tests[1:])
    return build_page(replace(facts, tests=named), interactive=True)


def scripts() -> list[str]:
    """Return the scripts of the page."""
    return re.findall(r"<script>(.*?)</script>", live_page(), re.DOTALL)


@pytest.mark.slow
def test_two_scripts_and_a_policy_that_names_both() -> None:
    """One bundle, one program; the policy is the still page's and allows these two by their hashes."""
    assert len(scripts()) == 2
    policy = re.findall(r'http-equiv="Content-Security-Policy" content="([^"]*)"', live_page())
    hashes = [b64encode(sha256(each.encode()).digest()).decode() for each in scripts()]
    sources = "script-src " + " ".join(f"'sha256-{digest}'" for digest in hashes)
    assert unescape(policy[0]) == f"{POLICY}; {sources}"
    assert script_sources(scripts()) == sources


@pytest.mark.slow
def test_text_of_files_cannot_end_the_script() -> None:
    """A title with markup stays text in the program too."""
    assert HOSTILE not in live_page()
    assert "alert(1)" in scripts()[1]
    assert "<" not in specs(scripts()[1])


def specs(program: str) -> str:
    """Return the specifications as they stand in the program."""
    return program[program.index("var specs = ") : program.index("var options")]


@pytest.mark.slow
def test_each_figure_has_a_place_and_its_still_picture() -> None:
    """Without scripts the page is whole: every figure stands in its place until its own is drawn."""
    drawn = json.loads(specs(scripts()[1]).removeprefix("var specs = ").strip().removesuffix(";"))
    places = re.findall(r'<div class="draw" id="draw-([a-z0-9-]+)"><svg ', live_page())
    assert sorted(places) == sorted(drawn)


def test_marks_answer_and_still_pages_stay_as_they_were() -> None:
    """Marks that say what they are say it when pointed at; the figure's own specification stays."""
    layer = {"mark": {"type": "line"}, "encoding": {"description": {"field": "spoken"}}}
    kept = {"ftt-0": {"layer": [layer]}}
    program = live_scripts(kept)[1]
    assert '"tooltip":{"field":"spoken"}' in program
    assert '"bind":"scales"' in program
    assert "tooltip" not in str(kept)


@pytest.mark.slow
def test_same_page_twice() -> None:
    """A page that moves is the same every time too."""
    facts = loud_shift()
    assert build_page(facts, interactive=True) == build_page(facts, interactive=True)
