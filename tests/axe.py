"""Asks axe-core, in Chromium, what it finds against the reading of a page or a mail.

The script is looked for at EOL_AXE, else below node_modules: `npm install axe-core` puts it there.
"""

from __future__ import annotations

import html as entities
import json
import os
import re
import shutil
import subprocess
from pathlib import Path

from source_tree import ROOT

OPTIONS = ("--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--hide-scrollbars")
OFFLINE = ("--disable-background-networking", "--host-resolver-rules=MAP * ~NOTFOUND")
PROGRAMS = ("chromium", "chromium-browser", "google-chrome")

RUN = """
<pre id="axe"></pre>
<script>%s</script>
<script>
axe.run({resultTypes: ["violations"]}).then(function (found) {
  document.getElementById("axe").textContent = JSON.stringify(found.violations.map(
    function (one) { return one.id + ": " + one.nodes.map(function (n) { return n.html; }).join(" "); }
  ));
});
</script>
"""


def chromium(*options: str, address: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Open an address in Chromium and wait until it is done."""
    program = next(path for name in PROGRAMS if (path := shutil.which(name)))
    profile = f"--user-data-dir={folder / 'profile'}"
    call = [program, *OPTIONS, *OFFLINE, profile, *options, address]
    return subprocess.run(call, capture_output=True, text=True, timeout=180, check=True)


def axe_script() -> str:
    """The script of axe-core."""
    place = os.environ.get("EOL_AXE") or ROOT / "node_modules" / "axe-core" / "axe.min.js"
    path = Path(place)
    assert path.is_file(), f"no axe-core at {path}: npm install axe-core, or set EOL_AXE"
    return path.read_text(encoding="utf-8")


def violations(html: str, folder: Path, *, dark: bool = False) -> list[str]:
    """What axe finds in an HTML text, each as its rule and the elements.

    The policy of the page forbids every script, so the copy that is looked at goes without it.
    """
    open_to_scripts = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", html)
    path = folder / "looked_at.html"
    run = RUN % axe_script()
    path.write_text(open_to_scripts.replace("</body>", run + "</body>"), encoding="utf-8")
    scheme = ("--blink-settings=preferredColorScheme=0",) if dark else ()
    wait = ("--virtual-time-budget=60000", "--window-size=1366,768", "--dump-dom")
    dom = chromium(*scheme, *wait, address=path.as_uri(), folder=folder).stdout
    found = re.search(r'<pre id="axe">(.*?)</pre>', dom, re.DOTALL)
    assert found is not None
    assert found[1], "axe did not come to its end"
    told: list[str] = json.loads(entities.unescape(found[1]))
    return told
