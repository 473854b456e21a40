"""Each module of the package has a file of tests in the same place."""

from __future__ import annotations

import ast

from source_tree import ROOT, Module, modules


def does_something(module: Module) -> bool:
    """Tell whether there is a function in the module; one of words and constants alone needs no tests."""
    return any(isinstance(node, ast.FunctionDef) for node in ast.walk(module.tree))


def test_each_module_has_its_tests() -> None:
    """eol/x/y.py is held by tests/x/test_y.py."""
    missing = [
        place
        for module in modules()
        if module.path.stem not in {"__init__", "__main__"} and does_something(module)
        for place in [module.path.relative_to(ROOT / "eol").with_name(f"test_{module.path.name}")]
        if not (ROOT / "tests" / place).exists()
    ]
    assert [str(place) for place in missing] == []
