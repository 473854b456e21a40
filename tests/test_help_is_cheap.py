"""Help answers at once: it loads none of the heavy libraries."""

from __future__ import annotations

import json
import subprocess
import sys

import click
import pytest
from click.testing import CliRunner

from eol.cli import COMMANDS, cli

HEAVY = ("altair", "duckdb", "jinja2", "numpy", "polars", "pyarrow", "pydantic", "rich", "scipy")

SCRIPT = """
import json, sys
from eol.cli import run
code = run(sys.argv[1:])
json.dump([code, [name for name in {heavy} if name in sys.modules]], sys.stderr)
"""


def loaded_by(*arguments: str) -> tuple[int, list[str]]:
    """Run a command in a process of its own; return its exit code and the heavy libraries it loaded."""
    script = SCRIPT.format(heavy=HEAVY)
    ran = subprocess.run(
        [sys.executable, "-c", script, *arguments], capture_output=True, text=True, check=True
    )
    code, loaded = json.loads(ran.stderr.splitlines()[-1])
    return code, loaded


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], []], ids=str)
def test_help_of_the_tool(arguments: list[str]) -> None:
    """`eol --help`, `eol --version` and a bare `eol` load no heavy library."""
    assert loaded_by(*arguments)[1] == []


@pytest.mark.parametrize("name", COMMANDS)
def test_help_of_a_command(name: str) -> None:
    """The help of each command loads no heavy library either."""
    assert loaded_by(name, "--help") == (0, [])


@pytest.mark.parametrize("name", COMMANDS)
def test_help_says_what_it_does(name: str) -> None:
    """The help opens with how to call the command and closes with an example of it."""
    answer = CliRunner().invoke(cli, [name, "--help"])
    assert answer.exit_code == 0
    assert answer.output.startswith(f"Usage: cli {name} ")
    assert f"Example: eol {name}" in answer.output.replace("--plant /srv/quillbrook ", "")


def test_list_of_commands_needs_none_of_them() -> None:
    """`eol --help` lists each command with the line that the table holds."""
    answer = CliRunner().invoke(cli, ["--help"])
    words = " ".join(answer.output.split())
    assert [name for name, (_, line) in COMMANDS.items() if f"{name} {line}" not in words] == []


def test_listed_line_is_a_sentence() -> None:
    """Each line of the list is one short sentence."""
    lines = [line for _, line in COMMANDS.values()]
    assert [line for line in lines if not line.endswith(".") or len(line) > 70] == []


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_has_help(name: str) -> None:
    """No option stands without words, and every command can answer in JSON."""
    context = click.Context(cli)
    command = cli.get_command(context, name)
    assert command is not None
    options = [p for p in command.params if isinstance(p, click.Option)]
    assert [option.name for option in options if not option.help] == []
    assert "--json" in {text for option in options for text in option.opts}
