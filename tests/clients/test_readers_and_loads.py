"""Readers in different clients query while files load: no refusal, and every answer belongs to one copy."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import builders as b
import plants
import pytest

from eol.plant.folder import PlantFolder

FILES = 20
RUNS = 3
"""Runs of each file, one a unit."""

NOTEBOOK = """
import sys, time
from pathlib import Path
import eol
plant = eol.open_plant(sys.argv[1])
while not Path(sys.argv[2]).exists():
    row = plant.sql(
        "SELECT (SELECT count(*) FROM run) AS runs,"
        " (SELECT sum(tested) FROM ftt_by_shift WHERE test = 'water') AS tested"
    ).row(0)
    print(row[0], row[1] or 0)
    time.sleep(0.3)
"""
COMMAND = """
import subprocess, sys, time
from pathlib import Path
text = (
    "SELECT (SELECT count(*) FROM run) AS runs,"
    " (SELECT coalesce(sum(tested), 0) FROM ftt_by_shift WHERE test = 'water') AS tested"
)
line = [sys.executable, "-m", "eol", "--plant", sys.argv[1], "sql", text, "--csv"]
while not Path(sys.argv[2]).exists():
    ran = subprocess.run(line, capture_output=True, text=True, check=True)
    print(*ran.stdout.splitlines()[1].split(","))
    time.sleep(0.3)
"""


def counts(answers: str) -> list[int]:
    """The runs that each answer of a reader counted; in each of them every run is a tested unit."""
    pairs = [tuple(map(int, line.split())) for line in answers.splitlines()]
    assert [pair for pair in pairs if pair[0] != pair[1]] == []
    return [runs for runs, _ in pairs]


def readers_answer(
    folder: PlantFolder, commands: list[list[str]], tmp_path: Path
) -> list[list[int]]:
    """What each reader counted while the files were loaded one after the other."""
    stop = tmp_path / "stop"
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "text": True}
    readers = [subprocess.Popen([*command, str(stop)], **pipes) for command in commands]
    try:
        for number in range(FILES):
            rows = [
                row for unit in range(RUNS) for row in b.run(f"U{RUNS * number + unit}", "08:00")
            ]
            plants.load(folder, b.file("water", rows, name=f"water_{number:02d}"))
    finally:
        stop.touch()
    ended = [reader.communicate(timeout=120) for reader in readers]
    assert [err for reader, (_, err) in zip(readers, ended, strict=True) if reader.returncode] == []
    return [counts(out) for out, _ in ended]


def check(folder: PlantFolder, commands: list[list[str]], tmp_path: Path) -> None:
    """Each reader got answers, of whole files alone, and never of an older copy than before."""
    for seen in readers_answer(folder, commands, tmp_path):
        assert seen == sorted(seen)
        assert {runs % RUNS for runs in seen} == {0}
        assert len(set(seen)) > 2
    assert plants.count(folder, "run") == FILES * RUNS


@pytest.mark.slow
def test_readers_of_this_machine(
    folder: PlantFolder, own_python: list[str], tmp_path: Path
) -> None:
    """Plain DuckDB, a notebook and the command, two of each."""
    root, copy = str(folder.root), str(folder.read_copy)
    each = [
        [*own_python, copy],
        [sys.executable, "-c", NOTEBOOK, root],
        [sys.executable, "-c", COMMAND, root],
    ]
    check(folder, [*each, *each], tmp_path)


@pytest.mark.clients
def test_six_different_clients(
    folder: PlantFolder,
    own_python: list[str],
    old_python: list[str],
    node: list[str],
    tmp_path: Path,
) -> None:
    """DuckDB 1.5 and 2 in Python, Node, a notebook, the command and a second Node."""
    root, copy = str(folder.root), str(folder.read_copy)
    check(
        folder,
        [
            [*own_python, copy],
            [*old_python, copy],
            [*node, copy],
            [*node, copy],
            [sys.executable, "-c", NOTEBOOK, root],
            [sys.executable, "-c", COMMAND, root],
        ],
        tmp_path,
    )
