"""The page in a real browser: quiet console, no request, one sheet of paper, links that open."""

from __future__ import annotations

import re
import shutil
import subprocess
from functools import cache
from pathlib import Path

import pytest
from made_up_shift import empty_shift, loud_shift, quiet_shift, stress_shift

from eol.report.page import PAPERS, build_page

pytestmark = pytest.mark.browser

MAKES = {"loud": loud_shift, "quiet": quiet_shift, "empty": empty_shift, "stress": stress_shift}
SHEETS = {"A4": (842, 595), "A3": (1191, 842), "letter": (792, 612)}
OPTIONS = ("--headless", "--no-sandbox", "--disable-gpu", "--no-first-run")
OFFLINE = ("--disable-background-networking", "--host-resolver-rules=MAP * ~NOTFOUND")


def browser(*options: str, address: str, profile: Path) -> subprocess.CompletedProcess[str]:
    """Open an address in Chromium and wait until it is done."""
    names = ("chromium", "chromium-browser", "google-chrome")
    program = next(path for name in names if (path := shutil.which(name)))
    call = [program, *OPTIONS, *OFFLINE, f"--user-data-dir={profile}", *options, address]
    return subprocess.run(call, capture_output=True, text=True, timeout=180, check=True)


@cache
def page(name: str, paper: str) -> str:
    """Return the page of a made-up shift, built once."""
    return build_page(MAKES[name](), paper=paper)


def written(folder: Path, name: str, *, paper: str = "A4") -> Path:
    """Write the page of a made-up shift."""
    path = folder / f"{name}_{paper}.html"
    path.write_text(page(name, paper), encoding="utf-8")
    return path


def console(path: Path, folder: Path) -> list[str]:
    """Return what the browser's console says of a page."""
    done = browser(
        "--enable-logging=stderr",
        "--dump-dom",
        address=path.as_uri(),
        profile=folder / "profile",
    )
    return [line for line in done.stderr.splitlines() if "CONSOLE" in line]


@pytest.mark.parametrize("name", MAKES)
def test_console_stays_quiet(tmp_path: Path, name: str) -> None:
    """The page obeys its own policy: the browser has nothing to say."""
    assert console(written(tmp_path, name), tmp_path) == []


def test_figures_that_answer_are_drawn_under_their_policy(tmp_path: Path) -> None:
    """The page that moves draws every figure again, and the browser has nothing to say."""
    path = tmp_path / "live.html"
    path.write_text(build_page(loud_shift(), interactive=True), encoding="utf-8")
    done = browser(
        "--enable-logging=stderr",
        "--virtual-time-budget=9000",
        "--dump-dom",
        address=path.as_uri(),
        profile=tmp_path / "profile",
    )
    figures = done.stdout.count('class="draw" id="draw-')
    assert [line for line in done.stderr.splitlines() if "CONSOLE" in line] == []
    assert done.stdout.count('data-drawn="yes"') == figures > 5


@pytest.mark.parametrize(
    "foreign", ["<script>alert(1)</script>", '<img src="http://outside.invalid/x.png" alt="">']
)
def test_console_would_speak(tmp_path: Path, foreign: str) -> None:
    """The same look sees a script and a request that the policy forbids: a quiet page makes none."""
    path = written(tmp_path, "empty")
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("</body>", f"{foreign}</body>"), encoding="utf-8")
    assert any("Content Security Policy" in line for line in console(path, tmp_path))


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", MAKES)
def test_prints_on_one_sheet(tmp_path: Path, name: str, paper: str) -> None:
    """Whatever the shift holds, it prints on one sheet of the paper asked for."""
    sheet = tmp_path / "page.pdf"
    browser(
        "--no-pdf-header-footer",
        f"--print-to-pdf={sheet}",
        address=written(tmp_path, name, paper=paper).as_uri(),
        profile=tmp_path / "profile",
    )
    pdf = sheet.read_bytes()
    box = re.search(rb"/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]", pdf)
    assert len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf)) == 1
    assert box is not None
    assert [float(side) for side in box.groups()] == pytest.approx(SHEETS[paper], abs=1)


def test_link_of_a_bar_opens_its_list(tmp_path: Path) -> None:
    """The link that a bar carries opens the closed list of its units, without any script."""
    path = written(tmp_path, "loud")
    address = path.as_uri() + "#code-water-WL-SEAM"
    dom = browser("--dump-dom", address=address, profile=tmp_path / "profile").stdout
    opened = re.findall(r'<details name="codes" open="">.*?id="([^"]+)"', dom, re.DOTALL)
    assert opened == ["code-water-WL-SEAM"]


def pixels(path: Path) -> tuple[int, int]:
    """Return the size of a PNG."""
    head = path.read_bytes()[16:24]
    return int.from_bytes(head[:4], "big"), int.from_bytes(head[4:], "big")


def test_enlarged_panel_fills_the_screen(tmp_path: Path) -> None:
    """A panel that a link leads to covers the page, so that its picture differs from the page's."""
    path = written(tmp_path, "loud")
    shots = []
    for at, place in enumerate(("", "#p-pareto")):
        shot = tmp_path / f"{at}.png"
        browser(
            "--hide-scrollbars",
            "--window-size=1366,768",
            f"--screenshot={shot}",
            address=path.as_uri() + place,
            profile=tmp_path / f"profile{at}",
        )
        shots.append(shot)
    assert pixels(shots[0]) == pixels(shots[1]) == (1366, 768)
    assert shots[0].read_bytes() != shots[1].read_bytes()
