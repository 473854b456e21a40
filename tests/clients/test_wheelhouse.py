"""Installed without internet: wheels fetched once, then a new environment that may ask no index."""

from __future__ import annotations

import os
import re
import subprocess
from pathlib import Path

import pytest
from source_tree import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")
FETCH = r"^(pip wheel .*wheelhouse.*)$"
INSTALL = r"^(python3 -m venv \S+ && \S+/pip install --no-index .*)$"


def line(pattern: str, **places: Path) -> str:
    """A line of the README with its places put elsewhere."""
    [found] = re.findall(pattern, README, re.MULTILINE)
    for name, place in places.items():
        found = found.replace({"wheels": "wheelhouse", "target": "/opt/eol"}[name], str(place))
    return str(found)


def test_readme_says_how() -> None:
    """The README has one line that fetches and one that installs."""
    assert "-c requirements.lock ." in line(FETCH)
    assert "--find-links wheelhouse" in line(INSTALL)


@pytest.mark.clients
def test_installed_without_an_index(tmp_path: Path) -> None:
    """The README's two lines: the second may ask no index, and what it installs works."""
    places = {"wheels": tmp_path / "wheels", "target": tmp_path / "eol"}
    subprocess.run(line(FETCH, wheels=places["wheels"]), shell=True, check=True, cwd=ROOT)
    alone = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    alone |= {"PIP_NO_INDEX": "1", "PIP_CONFIG_FILE": os.devnull}
    subprocess.run(line(INSTALL, **places), shell=True, check=True, cwd=tmp_path, env=alone)
    eol = [str(places["target"] / "bin" / "eol")]
    ran = subprocess.run([*eol, "--version"], capture_output=True, text=True, check=True, env=alone)
    assert ran.stdout.startswith("eol, version")
    init = [*eol, "init", str(tmp_path / "plant"), "--name", "Quillbrook"]
    subprocess.run(init, check=True, env=alone, cwd=tmp_path)
    load = [*eol, "--plant", str(tmp_path / "plant"), "ingest"]
    subprocess.run(load, check=True, env=alone, cwd=tmp_path)
    page = [*eol, "--plant", str(tmp_path / "plant"), "sql", "--words", "--page"]
    subprocess.run(page, check=True, env=alone, cwd=tmp_path)
    assert 'id="rule-18"' in (tmp_path / "plant" / "reports" / "dictionary.html").read_text("utf-8")
