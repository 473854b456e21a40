"""The import table of DEVELOPERS.md, and what may stand in which part of the package."""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Iterable, Iterator
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest
from source_tree import ROOT, Module, imported_names, imports_within, modules

TABLE = """
    eol | __main__
    cli
    schedule
    mail | fleet | demo | notebook
    report
    figures
    load | ask | facts
    feeds | statistics | store
    plant
    sqlfiles
    words | errors
"""
"""A line imports only from lines below it; names joined by | never import each other."""

ONLY_IN = {
    "duckdb": {"store", "ask", "fleet"},
    "altair": {"figures", "report"},
    "vl_convert": {"figures", "report"},
    "click": {"cli"},
    "rich": {"cli"},
    "prompt_toolkit": {"cli"},
}
"""Libraries that only some parts may import."""

MOST_LINES = 400

SQL = re.compile(
    r"\bSELECT\b.+\bFROM\b|\bINSERT\s+INTO\b|\bDELETE\s+FROM\b|\bUPDATE\s+\S+\s+SET\b"
    r"|\b(CREATE|ALTER|DROP)\s.*(TABLE|VIEW|SCHEMA|MACRO|INDEX)\b|\bCOPY\s+\S+\s+(TO|FROM)\b"
    r"|\bCOMMENT\s+ON\b|\bATTACH\s|\bWITH\s+\w+\s+AS\s*\("
    r"|(?i:^\s*(select\s.+\sfrom\s|insert\s+into\s|delete\s+from\s|update\s+\S+\s+set\s|create\s+table\s))",
    re.DOTALL,
)
"""Statements written as people write SQL, or a whole string that begins like one."""

TABLE_LINES = [line.strip() for line in TABLE.strip().splitlines()]
LEVELS = {
    name: level for level, line in enumerate(reversed(TABLE_LINES)) for name in line.split(" | ")
}


FaultsOf = Callable[[Module], Iterable[str]]


def faulty(faults_of: FaultsOf, *, spared: frozenset[str] = frozenset()) -> dict[str, list[str]]:
    """Return the modules outside the spared parts that have faults, with these."""
    looked_at = {m.name: list(faults_of(m)) for m in modules() if m.part not in spared}
    return {name: faults for name, faults in looked_at.items() if faults}


def test_every_part_stands_in_the_table() -> None:
    """A part of the package that the import table does not name has no place in it."""
    assert {module.part for module in modules()} - set(LEVELS) == set()


def wrong_imports(module: Module) -> Iterator[str]:
    """Give what a module imports from its own line's neighbours or from a line above."""
    for name in imports_within(module):
        part = [*name.split("."), "eol"][1]
        if part != module.part and LEVELS[part] >= LEVELS[module.part]:
            yield name


def test_imports_point_down() -> None:
    """No module imports upward or sideways, imports inside functions counted."""
    assert faulty(wrong_imports) == {}


def test_no_cycle() -> None:
    """Modules import each other without a cycle, imports inside functions counted."""
    try:
        TopologicalSorter({m.name: imports_within(m) for m in modules()}).prepare()
    except CycleError as error:
        pytest.fail(f"cycle: {' -> '.join(error.args[1])}")


@pytest.mark.parametrize("library", ONLY_IN)
def test_library_stays_in_its_parts(library: str) -> None:
    """The store alone talks to DuckDB, figures alone draw, commands alone know a terminal."""
    users = {m.name for m in modules() if library in {n.split(".")[0] for n in imported_names(m)}}
    assert {name for name in users if name.split(".")[1] not in ONLY_IN[library]} == set()


def printing_calls(module: Module) -> Iterator[str]:
    """Give the calls that put something on a terminal."""
    for node in ast.walk(module.tree):
        called = ast.unparse(node.func) if isinstance(node, ast.Call) else ""
        if re.search(r"(^|\.)(print|pprint|echo|secho)$|^sys\.std(out|err)\.write$", called):
            yield f"{called} in line {node.lineno}"


def test_only_commands_print() -> None:
    """Nothing outside cli/ prints: the library answers with values and errors."""
    assert faulty(printing_calls, spared=frozenset({"cli"})) == {}


def sql_texts(module: Module) -> Iterator[str]:
    """Give the strings that hold SQL; docstrings and examples of `eol sql` are none."""
    spared = {docstring_node(node) for node in ast.walk(module.tree)}
    for node in ast.walk(module.tree):
        text = node.value if isinstance(node, ast.Constant) and node not in spared else None
        if isinstance(text, str) and "eol sql " not in text and SQL.search(text):
            yield f"{text[:60]!r} in line {node.lineno}"


def docstring_node(node: ast.AST) -> ast.expr | None:
    """Return the string that opens a module, class or function."""
    opens = isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef)
    first = node.body[0] if opens and node.body else None
    return first.value if isinstance(first, ast.Expr) else None


def test_no_sql_in_python() -> None:
    """SQL lies in queries/, where an analyst and another engine can read it."""
    assert faulty(sql_texts) == {}


def broad_handlers(module: Module) -> Iterator[str]:
    """Give the handlers that catch everything and do not pass it on."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.ExceptHandler):
            caught = "Exception" if node.type is None else ast.unparse(node.type)
            passed_on = isinstance(node.body[-1], ast.Raise) and node.body[-1].exc is None
            if re.search(r"\b(Base)?Exception\b", caught) and not passed_on:
                yield f"except {caught} in line {node.lineno}"


def test_no_broad_except() -> None:
    """Only the edge of the commands, and the schedule around each step, may catch everything."""
    assert faulty(broad_handlers, spared=frozenset({"cli", "schedule"})) == {}


def test_modules_are_short() -> None:
    """A module is split before it grows past 400 lines, one of the tests too."""
    paths = [*(ROOT / "eol").rglob("*.py"), *(ROOT / "tests").rglob("*.py")]
    lines = {str(path): len(path.read_text(encoding="utf-8").splitlines()) for path in paths}
    assert {path: count for path, count in lines.items() if count > MOST_LINES} == {}


@pytest.mark.parametrize("file", ["DEVELOPERS.md", "eol/__init__.py"])
def test_published_table_is_this_one(file: str) -> None:
    """DEVELOPERS.md and the package's docstring show the lines of the table as far as they exist."""
    built = {module.part for module in modules()} - {"eol", "__main__"}
    lines = [[name for name in line.split(" | ") if name in built] for line in TABLE_LINES]
    shown = [" | ".join(names) for names in lines if names]
    text = (ROOT / file).read_text(encoding="utf-8")
    assert "\n".join(f"    {line}" for line in shown) + "\n" in text


def test_checks_see_what_is_wrong() -> None:
    """A module that imports upward inside a function, prints, holds SQL and swallows errors is seen."""
    text = (
        "def f():\n    from ..cli import run\n    try:\n        print('SELECT a FROM b')\n"
        "    except Exception:\n        pass\n"
    )
    module = Module("eol.store.bad", Path("eol/store/bad.py"), text)
    assert "eol.cli" in imported_names(module)
    assert list(printing_calls(module)) == ["print in line 4"]
    assert list(sql_texts(module)) == ["'SELECT a FROM b' in line 4"]
    assert list(broad_handlers(module)) == ["except Exception in line 5"]


def test_imports_for_types_alone_do_not_count() -> None:
    """What is imported under TYPE_CHECKING never runs."""
    text = "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from eol.cli import run\n"
    module = Module("eol.store.fine", Path("eol/store/fine.py"), text)
    assert "eol.cli" not in imported_names(module)
