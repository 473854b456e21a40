"""Everything public says what it is; the README names every command and calls each as it can be called."""

from __future__ import annotations

import ast
import re
import shlex
import tomllib
from collections.abc import Iterator

import click
import pytest
from source_tree import ROOT, Module, modules

from eol.cli import COMMANDS, cli

README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)

SHARED_STEPS = {"helpers", "interval"}
"""Modules of statistics/ that hold steps of several methods, and no method."""


def undocumented(module: Module) -> Iterator[str]:
    """Give the module, public classes, functions and methods that have no docstring."""
    if ast.get_docstring(module.tree) is None:
        yield f"{module.name}: the module"
    yield from (f"{module.name}: {name}" for name in _silent(module.tree))


def _silent(node: ast.Module | ast.ClassDef) -> Iterator[str]:
    for child in node.body:
        if isinstance(child, ast.FunctionDef | ast.ClassDef) and not child.name.startswith("_"):
            if ast.get_docstring(child) is None and not _is_overload(child):
                yield child.name
            if isinstance(child, ast.ClassDef):
                yield from (f"{child.name}.{name}" for name in _silent(child))


def _is_overload(node: ast.FunctionDef | ast.ClassDef) -> bool:
    return any(ast.unparse(mark).endswith("overload") for mark in node.decorator_list)


def test_everything_public_has_a_docstring() -> None:
    """Modules, public classes, functions and methods say what they are."""
    assert [name for module in modules() for name in undocumented(module)] == []


def test_statistics_name_their_source_and_show_an_example() -> None:
    """A public function of statistics/ gives its source, and an example that the doctests run."""
    silent = [
        f"{module.name}: {node.name}"
        for module in modules()
        if module.part == "statistics" and module.path.stem not in SHARED_STEPS
        for node in module.tree.body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
        if not {"Source:", "Example:"} <= set((ast.get_docstring(node) or "").split())
    ]
    assert silent == []


def command_lines() -> list[str]:
    """Return the lines of the README's shell blocks that call `eol`, without what shells do with them."""
    text = "\n".join(body for kind, body in BLOCKS if kind in {"", "sh", "bash", "console"})
    parts = [part for line in text.splitlines() for part in re.split(r" && | \| |; ", line)]
    called = [re.match(r"(?:\$ )?(?:\S*/)?eol (.*)", part) for part in parts]
    return [f"eol {found[1]}" for found in called if found]


def called_command(line: str) -> str:
    """Parse a command line as the tool would, without running it; return the command's name."""
    words = shlex.split(line.split(" > ")[0])[1:]
    with click.Context(cli, info_name="eol") as context:
        _, rest, _ = cli.make_parser(context).parse_args(words)
        name, command, arguments = cli.resolve_command(context, rest)
        assert name is not None
        assert command is not None
        command.make_context(name, arguments, parent=context)
    return name


def test_readme_calls_commands() -> None:
    """The README shows how to call the tool."""
    assert len(command_lines()) >= len(COMMANDS)


@pytest.mark.parametrize("line", command_lines())
def test_readme_line_can_be_called(line: str) -> None:
    """Command, options and arguments of a line in the README exist."""
    assert called_command(line) in COMMANDS


@pytest.mark.parametrize("line", ["eol nonsense", "eol sql --nonsense", "eol unit", "eol init a b"])
def test_wrong_line_is_seen(line: str) -> None:
    """A command, option or argument that is not there would be seen."""
    with pytest.raises(click.UsageError):
        called_command(line)


@pytest.mark.parametrize("name", COMMANDS)
def test_readme_has_command(name: str) -> None:
    """The table of the README has a row for each command, and a line of it calls it."""
    assert f"| `eol {name}" in README
    assert name in {called_command(line) for line in command_lines()}


def test_readme_has_no_other_command() -> None:
    """The README's table promises no command that is not there."""
    assert set(re.findall(r"^\| `eol (\w+)", README, re.MULTILINE)) == set(COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_help_ends_in_an_example_that_can_be_called(name: str) -> None:
    """The example that closes a command's help can be called as it stands."""
    command = cli.get_command(click.Context(cli), name)
    assert command is not None
    assert command.epilog is not None
    assert called_command(command.epilog.removeprefix("Example: ")) == name


def test_each_dependency_says_why() -> None:
    """A remark beside each dependency says what it is needed for, and none is named twice."""
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    project = tomllib.loads(text)["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    bare = [name for name in wanted if not re.search(rf'"{re.escape(name)}",\s+# \w', text)]
    assert bare == []
    assert len({re.split(r"[<>=\[]", name)[0] for name in wanted}) == len(wanted)


def test_rules_stand_in_developers() -> None:
    """Every counting rule that code or SQL cites by number is published in DEVELOPERS.md."""
    published = set(re.findall(r"^(\d+)\. \*\*", _developers(), re.MULTILINE))
    sources = [*(ROOT / "queries").rglob("*.sql"), *(ROOT / "eol").rglob("*.py")]
    text = "\n".join(path.read_text(encoding="utf-8") for path in sources)
    cited = re.findall(r"\b[Rr]ules? (\d+(?:(?:, | and | to )\d+)*)", text)
    assert {number for group in cited for number in re.findall(r"\d+", group)} <= published


def test_each_rule_names_its_files() -> None:
    """The table of DEVELOPERS.md names, for each rule, files that there are."""
    rows = dict(re.findall(r"^\| (\d+) \| (.*) \|$", _developers(), re.MULTILINE))
    named = re.findall(r"`([a-z]+)/(\w+)`", "".join(rows.values()))
    there = {(path.parent.name, path.stem[4:]) for path in (ROOT / "queries").rglob("*.sql")}
    assert sorted(map(int, rows)) == list(range(1, 19))
    assert set(named) - there == set()
    modules_named = re.findall(r"`(eol/\S+\.py)`", " ".join(rows.values()))
    assert [path for path in modules_named if not (ROOT / path).exists()] == []


def _developers() -> str:
    return (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
