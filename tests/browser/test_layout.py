"""What a browser makes of the page at several sizes: nothing is cut, nothing covers anything else."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from collections.abc import Callable
from html import unescape
from pathlib import Path

import pytest
from made_up_shift import empty_shift, loud_shift, quiet_shift, stress_shift

from eol.demo.build import DemoResult
from eol.facts.shift import ShiftFacts
from eol.report.page import build_page

pytestmark = pytest.mark.browser

SIZES = ((1366, 768), (1920, 1080), (3840, 2160), (1600, 1200), (390, 844))
WHOLE = (
    ".head, .head h1, .cell dt, .cell .value, .cell .why, .looks, .looks ol, .safety, .safety li, "
    ".foot, .foot p, .caption, .panel"
)
"""Parts that nothing may be cut from."""

BLOCKS = ".head, .cell, .looks, .panel, .safety, .foot"
"""Parts of the sheet that stand beside each other."""

_POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy"[^>]*>')
_LOOK = """
const told = [];
for (const frame of document.querySelectorAll("iframe")) {
  const page = frame.contentDocument, size = frame.width + "x" + frame.height;
  const name = (part) => part.id || part.className || part.tagName;
  const tell = (what, part) => told.push(size + " " + what + ": " + name(part) + " " +
    part.textContent.trim().replace(/\\s+/g, " ").slice(0, 60));
  for (const part of page.querySelectorAll("WHOLE")) {
    if (part.scrollWidth > part.clientWidth + 1) tell("too wide", part);
    if (part.scrollHeight > 1.05 * part.clientHeight + 2 && part.clientHeight) tell("cut", part);
  }
  for (const figure of page.querySelectorAll(".fig svg")) {
    const box = figure.getBoundingClientRect();
    if (box.width < 150 || box.height < 60) tell("too small", figure);
  }
  const blocks = [...page.querySelectorAll("BLOCKS")].map((part) => [part, part.getBoundingClientRect()]);
  blocks.forEach(([one, a], at) => blocks.slice(at + 1).forEach(([other, b]) => {
    if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1.5 &&
        Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1.5) tell("covers " + name(other), one);
  }));
  if (page.documentElement.scrollWidth > frame.width) told.push(size + " scrolls to the side");
  if (frame.width > 900) {
    const wall = page.querySelector(".wall").getBoundingClientRect();
    if (wall.height > frame.height + 1) told.push(size + " the sheet is higher than the screen");
    for (const [part, box] of blocks)
      if (box.right > wall.right + 1 || box.bottom > wall.bottom + 1) tell("beyond the sheet", part);
  }
}
const place = document.createElement("pre");
place.id = "told";
place.textContent = JSON.stringify(told);
document.body.appendChild(place);
"""


def faults(html: str, folder: Path, *, clamped: bool) -> list[str]:
    """Return what is cut, covered or too small, at every size.

    Args:
        html: the page; its policy, which forbids scripts, is taken out for the look.
        folder: a place for it and the browser's profile.
        clamped: True where titles and lines to look at may end in dots.
    """
    source = _POLICY.sub("", html).replace("&", "&amp;").replace('"', "&quot;")
    frames = "".join(
        f'<iframe width="{wide}" height="{high}" style="border:0" srcdoc="{source}"></iframe>'
        for wide, high in SIZES
    )
    whole = WHOLE if clamped else f"{WHOLE}, .panel h2, .looks strong, .looks p"
    look = _LOOK.replace("WHOLE", whole).replace("BLOCKS", BLOCKS)
    page = folder / "layout.html"
    script = f"<script>window.addEventListener('load', function () {{ {look} }});</script>"
    page.write_text(f"<!DOCTYPE html><meta charset='utf-8'>{frames}{script}", encoding="utf-8")
    names = ("chromium", "chromium-browser", "google-chrome")
    program = next(path for name in names if (path := shutil.which(name)))
    call = [program, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run"]
    call += ["--disable-background-networking", f"--user-data-dir={folder / 'profile'}"]
    call += ["--window-size=4000,3000", "--virtual-time-budget=20000", "--dump-dom", page.as_uri()]
    dom = subprocess.run(call, capture_output=True, text=True, timeout=180, check=True).stdout
    told = re.search(r'<pre id="told">(.*?)</pre>', dom, re.DOTALL)
    assert told is not None, "the look did not end"
    found: list[str] = json.loads(unescape(told[1]))
    return found


@pytest.mark.parametrize("make", [loud_shift, quiet_shift, empty_shift])
def test_nothing_is_cut(make: Callable[[], ShiftFacts], tmp_path: Path) -> None:
    """From a phone to a wall of 4K everything stands whole in its own place."""
    assert faults(build_page(make()), tmp_path, clamped=False) == []


def test_page_of_the_demo_is_whole(demo_plant: DemoResult, tmp_path: Path) -> None:
    """With all nine panels on it the sheet is as whole."""
    html = demo_plant.page.read_text(encoding="utf-8")
    assert all(f'id="p-{name}"' in html for name in ("window", "actions"))
    assert faults(html, tmp_path, clamped=False) == []


def test_stress_cuts_titles_at_most(tmp_path: Path) -> None:
    """Under stress a title may end in dots; nothing else is cut, and nothing covers anything."""
    assert faults(build_page(stress_shift()), tmp_path, clamped=True) == []


def test_it_would_see_a_fault(tmp_path: Path) -> None:
    """The same look sees a panel that covers another, and a line that is cut."""
    broken = build_page(quiet_shift()).replace(
        "</style>", "#p-zones{margin-right:-20rem}.foot{height:1rem}</style>"
    )
    found = " ".join(faults(broken, tmp_path, clamped=False))
    assert "covers p-open: p-zones" in found
    assert "cut: foot" in found
