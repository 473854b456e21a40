"""Units for a machine's own schedule: what they call is what was meant, whatever the paths hold."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path, PurePosixPath, PureWindowsPath

import pytest

from eol.errors import UsageError
from eol.schedule.units import Unit, schedule_units

NASTY = ["/srv/Werk Süd", "/srv/100 % 'gut'", '/srv/a "b" $HOME \\c', "/srv/quillbrook"]
PYTHON = PurePosixPath("/opt/e o l/bin/python")
NAMESPACE = "{http://schemas.microsoft.com/windows/2004/02/mit/task}"


def units(kind: str, root: str, seconds: int = 60) -> tuple[Unit, ...]:
    """The units of a plant on a machine of that kind."""
    if kind == "windows":
        program = PureWindowsPath(r"C:\Program Files\eol\python.exe")
        return schedule_units(kind, PureWindowsPath(root), python=program, user="lead")
    return schedule_units(kind, PurePosixPath(root), python=PYTHON, user="eol", seconds=seconds)


def of_systemd(line: str) -> list[str]:
    """A command line as systemd reads it: quotes, C escapes, `%%` and, behind the program, `$$`."""
    words = [word.strip('"') for word in re.findall(r'"(?:\\.|[^"\\])*"|\S+', line)]
    plain = [re.sub(r"\\(.)", r"\1", word).replace("%%", "%") for word in words]
    return [plain[0], *(word.replace("$$", "$") for word in plain[1:])]


@pytest.mark.parametrize("root", NASTY)
def test_systemd(root: str) -> None:
    """The service calls this Python with this folder, once; the timer calls the service."""
    service, timer = units("systemd", root)
    [line] = re.findall(r"^ExecStart=(.*)$", service.text, re.MULTILINE)
    assert of_systemd(line) == [str(PYTHON), "-P", "-m", "eol", "--plant", root, "run"]
    assert "SuccessExitStatus=1\n" in service.text
    assert "OnUnitInactiveSec=60s" in timer.text
    assert service.place.removesuffix("service") == timer.place.removesuffix("timer")
    assert service.place.isascii()


@pytest.mark.slow
@pytest.mark.parametrize("root", NASTY)
def test_systemd_reads_them(tmp_path: Path, root: str) -> None:
    """Systemd itself finds no fault in service and timer."""
    python = Path(sys.executable)
    made = schedule_units("systemd", PurePosixPath(root), python=python, user="root")
    for unit in made:
        (tmp_path / PurePosixPath(unit.place).name).write_text(unit.text, encoding="utf-8")
    paths = [str(path) for path in sorted(tmp_path.iterdir())]
    done = subprocess.run(
        ["systemd-analyze", "verify", *paths], capture_output=True, text=True, check=False
    )
    assert [line for line in done.stderr.splitlines() if str(tmp_path) in line] == []


@pytest.mark.parametrize("root", NASTY)
def test_cron(root: str) -> None:
    """The line calls it each minute; a shell reads the words as they were meant, a % ends nothing."""
    [unit] = units("cron", root)
    when, call = unit.text[:10], unit.text[10:]
    assert when == "* * * * * "
    assert re.findall(r"(?<!\\)%", call) == []
    words = shlex.split(call.replace("\\%", "%").partition(" >>")[0])
    assert words == [str(PYTHON), "-P", "-m", "eol", "--plant", root, "run"]


@pytest.mark.parametrize(("seconds", "when"), [(60, "*"), (300, "*/5"), (10, "*")])
def test_cron_counts_minutes(seconds: int, when: str) -> None:
    """Cron knows no seconds."""
    [unit] = units("cron", "/srv/q", seconds)
    assert unit.text.split()[0] == when


@pytest.mark.parametrize("root", [r"C:\Werk Süd", r"D:\a & b <1>", r"\\server\share\quillbrook"])
def test_windows(root: str) -> None:
    """The task is XML in ASCII; its arguments are read as Windows reads them."""
    [unit] = units("windows", root)
    assert unit.text.isascii()
    task = ET.fromstring(unit.text)
    found = {part.tag.removeprefix(NAMESPACE): part.text for part in task.iter()}
    assert found["Command"] == r"C:\Program Files\eol\python.exe"
    assert found["WorkingDirectory"] == root
    quoted = f'"{root}"' if " " in root else root
    assert found["Arguments"] == f"-P -m eol --plant {quoted} run"
    assert (found["MultipleInstancesPolicy"], found["Interval"]) == ("IgnoreNew", "PT1M")


def test_two_plants_of_one_name() -> None:
    """Plants whose folders have one name have units of their own."""
    assert units("systemd", "/a/q")[0].place != units("systemd", "/b/q")[0].place


def test_what_cannot_be_written() -> None:
    """A path over two lines, and a kind that is none."""
    with pytest.raises(UsageError, match="line breaks"):
        units("cron", "/srv/a\nb")
    with pytest.raises(UsageError, match="systemd, cron, windows"):
        units("launchd", "/srv/q")
