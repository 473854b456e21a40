"""The dictionary page in a real browser: it obeys its own policy and asks for nothing."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from eol.ask.dictionary import dictionary
from eol.plant.folder import PlantFolder
from eol.report.dictionary import dictionary_page

pytestmark = pytest.mark.browser

OPTIONS = (
    *("--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--dump-dom"),
    *("--disable-background-networking", "--host-resolver-rules=MAP * ~NOTFOUND"),
    "--enable-logging=stderr",
)


def test_console_stays_quiet(small_plant: PlantFolder, tmp_path: Path) -> None:
    """The browser draws the page whole and has nothing to say of it."""
    page = tmp_path / "dictionary.html"
    page.write_text(dictionary_page(dictionary(small_plant)), encoding="utf-8")
    program = shutil.which("chromium") or shutil.which("chromium-browser") or "google-chrome"
    call = [program, *OPTIONS, f"--user-data-dir={tmp_path / 'profile'}", page.as_uri()]
    done = subprocess.run(call, capture_output=True, text=True, timeout=180, check=True)
    assert [line for line in done.stderr.splitlines() if "CONSOLE" in line] == []
    assert 'id="rule-18"' in done.stdout
