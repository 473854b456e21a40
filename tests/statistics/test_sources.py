"""Each public statistic names its source, shows an example and is held to a value from outside."""

import ast
from pathlib import Path

import pytest

STATISTICS = Path(__file__).parents[2] / "eol" / "statistics"
PUBLISHED = Path(__file__).parents[1] / "published"
SHARED = {"__init__", "interval", "helpers"}


def _public_functions():
    for path in sorted(STATISTICS.glob("*.py")):
        if path.stem in SHARED:
            continue
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                yield pytest.param(path.stem, node, id=f"{path.stem}.{node.name}")


@pytest.mark.parametrize(("module", "function"), list(_public_functions()))
def test_function_names_its_source_and_shows_an_example(module, function):
    """Author, title and page or equation, and an example that the doctests run."""
    text = ast.get_docstring(function) or ""
    for section in ("Args:", "Returns:", "Source:", "Example:"):
        assert section in text, f"{module}.{function.name} lacks {section}"
    assert ">>> " in text


@pytest.mark.parametrize(("module", "function"), list(_public_functions()))
def test_function_has_a_published_case(module, function):
    """The module's file under tests/published/ calls it."""
    text = (PUBLISHED / f"test_{module}.py").read_text(encoding="utf-8")
    assert (
        f"{function.name}(" in text or f", {function.name}" in text or f"[{function.name}" in text
    )
