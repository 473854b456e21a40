"""`eol schedule`: prints units; installs nothing."""

from __future__ import annotations

import re
import shlex
import sys

import pytest
from called import Eol

from eol.plant.folder import PlantFolder


def test_systemd(eol: Eol, folder: PlantFolder) -> None:
    """Service and timer, each under the name of its file, and the line that enables them."""
    answer = eol("--plant", folder.root, "schedule", "--for", "systemd", "--user", "eol")
    assert answer.code == 0
    assert answer.out.count("# /etc/systemd/system/eol-werk-sud-") == 2
    [call] = re.findall(r"^ExecStart=(.*)$", answer.out, re.MULTILINE)
    words = [sys.executable, "-P", "-m", "eol", "--plant", str(folder.root), "run"]
    assert shlex.split(call) == words
    assert "\nUser=eol\n" in answer.out


@pytest.mark.parametrize(("kind", "begin"), [("cron", "* * * * * "), ("windows", "<?xml ")])
def test_others(eol: Eol, folder: PlantFolder, kind: str, begin: str) -> None:
    """Cron and Windows get what can be piped as it stands."""
    assert eol("--plant", folder.root, "schedule", "--for", kind).out.startswith(begin)


def test_json(eol: Eol, folder: PlantFolder) -> None:
    """As JSON: place, text and how it is taken into use."""
    told = eol("--plant", folder.root, "schedule", "--for", "cron", "--json").json
    assert [sorted(one) for one in told] == [["place", "text", "use"]]
