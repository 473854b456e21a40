"""What the README says of options, questions and files is what the code has."""

from __future__ import annotations

import re

import click
import pytest
from source_tree import ROOT

from eol.ask.questions import questions
from eol.cli import COMMANDS, cli
from eol.sqlfiles import sql_files

README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
ROWS = dict(re.findall(r"^\| `eol (\w+)[^|]*\| (.*) \|$", README, re.MULTILINE))
"""What the README's table says of each command."""

OF_OTHERS = {"--no-index", "--find-links", "--extra"}
"""Options in the README that are other programs' own."""


def options(name: str) -> set[str]:
    """The options of a command."""
    command = cli.get_command(click.Context(cli), name)
    assert command is not None
    return {option for param in command.params for option in param.opts if option.startswith("-")}


@pytest.mark.parametrize("name", COMMANDS)
def test_options_in_a_row_exist(name: str) -> None:
    """An option that the README's table names for a command is one of it."""
    assert set(re.findall(r"(--[a-z-]+)", ROWS[name])) - options(name) == set()


def test_options_in_prose_exist() -> None:
    """An option that the README names anywhere belongs to some command."""
    known = {option for name in COMMANDS for option in options(name)}
    known |= {"--plant", "--version", "--help"} | OF_OTHERS
    prose = re.sub(r"^```.*?^```$", "", README, flags=re.DOTALL | re.MULTILINE)
    assert set(re.findall(r"`[^`]*?(--[a-z][a-z-]+)", prose)) - known == set()


def test_questions_named_exist() -> None:
    """A worked question that the README asks is there; each view that a document names in its lists too."""
    asked = set(re.findall(r"(?:--ask |\.ask\(\")([a-z_]+)", README))
    assert asked
    assert asked <= {question.name for question in questions()}


def test_rule_table_names_files() -> None:
    """The files that keep the counting rules, as DEVELOPERS.md tells, are there."""
    table = DEVELOPERS[DEVELOPERS.index("| rule | files |") :].split("\n\n")[0]
    named = set(re.findall(r"`((?:load|stamp|views|store|unit)/[a-z_]+)`", table))
    folders = {name.split("/")[0] for name in named}
    there = {f"{folder}/{file.name}" for folder in folders for file in sql_files(folder)}
    assert named - there == set()
    modules = re.findall(r"`(eol/[a-z_/]+\.py)`", table)
    assert [module for module in modules if not (ROOT / module).exists()] == []
