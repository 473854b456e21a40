"""The public library is what `eol.__all__` lists."""

from __future__ import annotations

import ast
import subprocess
import sys

import pytest
from source_tree import PACKAGE

import eol


def test_names_are_sorted() -> None:
    """The list is sorted and names nothing twice."""
    assert eol.__all__ == sorted(set(eol.__all__))


def test_each_name_has_a_home() -> None:
    """The names that are loaded when used are those listed, no more and no fewer."""
    assert sorted(eol._HOME) == eol.__all__


@pytest.mark.parametrize("name", eol.__all__)
def test_name_can_be_imported(name: str) -> None:
    """Each name loads, and its module does not call it private."""
    value = getattr(eol, name)
    assert getattr(value, "__name__", name) == name
    assert not name.startswith("_")


def test_names_for_type_checkers_are_the_same() -> None:
    """What a type checker sees comes from the same modules as what runs."""
    tree = ast.parse((PACKAGE / "__init__.py").read_text(encoding="utf-8"))
    seen = {
        alias.asname or alias.name: node.module
        for block in tree.body
        if isinstance(block, ast.If)
        for node in block.body
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
    }
    assert seen == eol._HOME


def test_unknown_name_is_an_attribute_error() -> None:
    """A name that is not there is told as Python tells it."""
    with pytest.raises(AttributeError, match="module 'eol' has no attribute 'nonsense'"):
        _ = eol.nonsense


def test_dir_lists_the_names() -> None:
    """Completion at a prompt shows the public names."""
    assert dir(eol) == eol.__all__


def test_import_loads_nothing() -> None:
    """`import eol` alone loads no other module of the package and no library."""
    script = "import sys; before = set(sys.modules); import eol; print(set(sys.modules) - before)"
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert {name for name in ast.literal_eval(ran.stdout) if "eol" in name} == {"eol"}
    assert "polars" not in ran.stdout
