"""Runs axe-core, the rules of which are those of WCAG, on a page in Chromium.

It is found by the variable AXE_CORE, the path of `axe.min.js`, else in `node_modules` (`npm install axe-core`).
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from html import unescape
from pathlib import Path

from source_tree import ROOT

_POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy"[^>]*>')
_RUN = """
axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}).then(
  function (found) {
    var told = found.violations.map(function (one) {
      return one.id + ": " + one.nodes.map(function (node) { return node.html.slice(0, 160); }).join(" / ");
    });
    var place = document.createElement("pre");
    place.id = "axe";
    place.textContent = JSON.stringify({violations: told, passes: found.passes.length});
    document.body.appendChild(place);
  });
"""


def axe_script() -> str:
    """Return axe-core's script."""
    named = os.environ.get("AXE_CORE")
    path = Path(named) if named else ROOT / "node_modules" / "axe-core" / "axe.min.js"
    assert path.exists(), (
        f"no axe-core at {path}: npm install axe-core, and name its axe.min.js in AXE_CORE"
    )
    return path.read_text(encoding="utf-8")


def violations(html: str, folder: Path) -> list[str]:
    """Return what axe finds on a page, a line a rule.

    Args:
        html: the page; its policy, which forbids every script, is taken out for the look.
        folder: a place for the page and the browser's profile.
    """
    script = axe_script().replace("</script", "<\\/script")
    looked_at = _POLICY.sub("", html).replace("</body>", f"<script>{script}{_RUN}</script></body>")
    page = folder / "axe.html"
    page.write_text(looked_at, encoding="utf-8")
    names = ("chromium", "chromium-browser", "google-chrome")
    program = next(path for name in names if (path := shutil.which(name)))
    call = [program, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run"]
    call += ["--disable-background-networking", f"--user-data-dir={folder / 'axe_profile'}"]
    call += ["--window-size=1366,768", "--virtual-time-budget=60000", "--dump-dom", page.as_uri()]
    dom = subprocess.run(call, capture_output=True, text=True, timeout=180, check=True).stdout
    told = re.search(r'<pre id="axe">(.*?)</pre>', dom, re.DOTALL)
    assert told is not None, "axe did not end"
    answer = json.loads(unescape(told[1]))
    assert answer["passes"] > 10, "axe looked at nothing"
    found: list[str] = answer["violations"]
    return found
