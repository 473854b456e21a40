"""The mail in a real browser: nothing that axe finds, light or dark; dark is dark, figures stay white."""

from __future__ import annotations

import base64
import io
import re
from datetime import UTC, datetime
from functools import cache
from html import escape
from pathlib import Path

import pytest
from axe import chromium, violations
from made_up_shift import empty_shift, loud_shift, quiet_shift, stress_shift
from PIL import Image

from eol.mail.letter import Occasion, shift_letters
from eol.mail.message import Attachment
from eol.report.page import build_page

pytestmark = pytest.mark.browser

MAKES = {"loud": loud_shift, "quiet": quiet_shift, "empty": empty_shift, "stress": stress_shift}
OCCASION = Occasion(
    "<one@q>",
    "line@q",
    ("lead@q",),
    datetime(2026, 9, 18, 15, tzinfo=UTC),
    late="This report is late.",
)


@cache
def mail(name: str) -> str:
    """The HTML of a made-up shift's mail, its pictures put in where the mail refers to them."""
    letter, _ = shift_letters(MAKES[name](), OCCASION, Attachment("page.html", b""))
    html = letter.html
    for picture in letter.pictures:
        data = base64.b64encode(picture.png).decode()
        html = html.replace(f"cid:{picture.name}", f"data:image/png;base64,{data}")
    return html


def shot(name: str, folder: Path, *, dark: bool) -> Image.Image:
    """The mail as it looks on a wide screen."""
    path, picture = folder / "mail.html", folder / "mail.png"
    path.write_text(mail(name), encoding="utf-8")
    scheme = ("--blink-settings=preferredColorScheme=0",) if dark else ()
    size = ("--window-size=720,2600", f"--screenshot={picture}")
    chromium(*scheme, *size, address=path.as_uri(), folder=folder)
    return Image.open(io.BytesIO(picture.read_bytes())).convert("RGB")


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("name", MAKES)
def test_axe_finds_nothing(tmp_path: Path, name: str, dark: bool) -> None:
    """axe-core has nothing against the mail, contrast included, light or dark."""
    assert violations(mail(name), tmp_path, dark=dark) == []


@pytest.mark.parametrize("name", MAKES)
def test_axe_finds_nothing_on_the_page(tmp_path: Path, name: str) -> None:
    """axe-core has nothing against the page that is attached."""
    assert violations(build_page(MAKES[name]()), tmp_path) == []


def test_axe_would_find_something(tmp_path: Path) -> None:
    """The same look sees a picture without words and pale grey text."""
    bad = mail("empty").replace(
        "</main>", '<img src="data:,"><p style="color:#ccc">pale</p></main>'
    )
    found = {told.partition(":")[0] for told in violations(bad, tmp_path)}
    assert {"image-alt", "color-contrast"} <= found


def test_dark_is_dark_and_figures_stay_white(tmp_path: Path) -> None:
    """The ground follows the reader's wish; the cells of the figures do not."""
    light, dark = shot("loud", tmp_path, dark=False), shot("loud", tmp_path, dark=True)
    assert light.getpixel((5, 5)) == (255, 255, 255)
    assert dark.getpixel((5, 5)) == (20, 24, 29)
    white = sum(dark.getpixel((600, y)) == (255, 255, 255) for y in range(dark.height))
    assert white > 500


@pytest.mark.parametrize("name", ["loud", "stress"])
def test_phone_scrolls_down_alone(tmp_path: Path, name: str) -> None:
    """At 360 pixels nothing is wider than the screen, long VINs and pictures included."""
    path = tmp_path / "phone.html"
    measure = (
        "<pre id=wide></pre><iframe width=360 height=800 onload=\"document.getElementById('wide')"
        '.textContent=this.contentDocument.documentElement.scrollWidth" srcdoc="'
    )
    path.write_text(measure + escape(mail(name)) + '"></iframe>', encoding="utf-8")
    wait = ("--virtual-time-budget=10000", "--dump-dom")
    dom = chromium(*wait, address=path.as_uri(), folder=tmp_path).stdout
    wide = re.search(r'<pre id="wide">(\d+)</pre>', dom)
    assert wide is not None
    assert int(wide[1]) <= 360
