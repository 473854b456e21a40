"""The edge of the command: the plant folder found, errors as words and exit codes."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import click
import pytest
from called import Eol

from eol.cli import COMMANDS, cli
from eol.plant.folder import PlantFolder


def test_folder_is_named_by_option(eol: Eol, small_plant: PlantFolder) -> None:
    """--plant names the folder."""
    assert eol("--plant", small_plant.root, "sql", "FROM as_of").code == 0


def test_folder_is_named_by_environment(
    eol: Eol, small_plant: PlantFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without the option EOL_PLANT names it."""
    monkeypatch.setenv("EOL_PLANT", str(small_plant.root))
    assert eol("sql", "FROM as_of").code == 0


def test_folder_is_this_one(
    eol: Eol, small_plant: PlantFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without either it is the folder one stands in."""
    monkeypatch.delenv("EOL_PLANT", raising=False)
    monkeypatch.chdir(small_plant.root)
    assert eol("sql", "FROM as_of").code == 0


@pytest.mark.parametrize("command", ["ingest", "status", "report", "sql", "unit"])
def test_missing_plant_folder(eol: Eol, tmp_path: Path, command: str) -> None:
    """A folder without plant.toml: exit 2, what, where, what next, and nothing is made there."""
    words = {"sql": ["SELECT 1"], "unit": ["U1"]}.get(command, [])
    answer = eol("--plant", tmp_path / "nowhere", command, *words)
    assert (answer.code, answer.out) == (2, "")
    assert answer.err == (
        f"eol: {tmp_path / 'nowhere'}: there is no plant.toml here\n"
        "  Make one with `eol init`, or name another folder with --plant.\n"
    )
    assert not (tmp_path / "nowhere").exists()


def test_unknown_command(eol: Eol) -> None:
    """A command that is none: exit 2 and its name."""
    answer = eol("ingset")
    assert answer.code == 2
    assert "No such command 'ingset'" in answer.err


def test_unknown_option(eol: Eol) -> None:
    """An option that is none: exit 2, and how the command is called."""
    answer = eol("status", "--jsno")
    assert answer.code == 2
    assert "--jsno" in answer.err
    assert "--json" in answer.err


def test_interrupt(eol: Eol, small_plant: PlantFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C is exit 130, and what was finished is kept."""
    monkeypatch.setattr("eol.ask.session.open_session", raising(KeyboardInterrupt()))
    answer = eol("--plant", small_plant.root, "sql", "SELECT 1")
    assert (answer.code, answer.out) == (130, "")
    assert answer.err.strip() == "eol: interrupted; what was finished is kept."


def test_fault_of_the_program(
    eol: Eol, small_plant: PlantFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A fault of the tool itself is exit 3 in words that say so, and what to send."""
    monkeypatch.setattr("eol.ask.session.open_session", raising(ZeroDivisionError("by nought")))
    answer = eol("--plant", small_plant.root, "sql", "SELECT 1")
    assert answer.code == 3
    assert "the program failed: ZeroDivisionError: by nought" in answer.err
    assert "EOL_DEBUG=1" in answer.err


def test_fault_is_shown_whole_where_asked(
    eol: Eol, small_plant: PlantFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With EOL_DEBUG=1 the fault comes through with all that a developer needs."""
    monkeypatch.setenv("EOL_DEBUG", "1")
    monkeypatch.setattr("eol.ask.session.open_session", raising(ZeroDivisionError("by nought")))
    with pytest.raises(ZeroDivisionError):
        eol("--plant", small_plant.root, "sql", "SELECT 1")


def raising(error: BaseException) -> object:
    """A function that raises."""

    def fail(*arguments: object, **named: object) -> None:
        raise error

    return fail


def test_reader_that_leaves_is_no_fault(small_plant: PlantFolder) -> None:
    """`eol sql … | head -1`: the pipe closes, the command ends quietly."""
    query = "SELECT i FROM range(200000) AS t (i)"
    command = [sys.executable, "-m", "eol", "--plant", str(small_plant.root), "sql", query, "--csv"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.readline()
    process.stdout.close()
    assert process.stderr.read() == b""
    assert process.wait() in (0, 141)
    process.stderr.close()


def test_version(eol: Eol) -> None:
    """--version names the tool and its version."""
    assert eol("--version").out.startswith("eol, version ")


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_json(name: str) -> None:
    """--json everywhere."""
    command = cli.get_command(click.Context(cli), name)
    assert command is not None
    assert "--json" in {option for p in command.params for option in p.opts}
