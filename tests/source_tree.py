"""The package's source as data: its modules, what each imports, and the nodes that tests look at."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "eol"


@dataclass(frozen=True)
class Module:
    """A module of the package: its dotted name, its file and its text."""

    name: str
    path: Path
    text: str

    @property
    def part(self) -> str:
        """The part of the package it belongs to: `eol.store.write` belongs to `store`."""
        return [*self.name.split("."), "eol"][1]

    @cached_property
    def tree(self) -> ast.Module:
        """The parsed text."""
        return ast.parse(self.text, filename=str(self.path))

    @property
    def folder(self) -> tuple[str, ...]:
        """The package that a relative import starts from."""
        names = tuple(self.name.split("."))
        return names if self.path.name == "__init__.py" else names[:-1]


@cache
def modules(package: Path = PACKAGE) -> tuple[Module, ...]:
    """Return every module of the package, in the order of their files."""
    found = []
    for path in sorted(package.rglob("*.py")):
        names = path.relative_to(package.parent).with_suffix("").parts
        name = ".".join(names).removesuffix(".__init__")
        found.append(Module(name, path, path.read_text(encoding="utf-8")))
    return tuple(found)


@cache
def imported_names(module: Module) -> frozenset[str]:
    """Return the dotted names that a module imports when it runs, also inside functions.

    `from eol.plant import calendar` gives `eol.plant` and `eol.plant.calendar`: either may be meant.
    """
    return frozenset(n for node in running_nodes(module.tree) for n in _names_of(node, module))


def imports_within(module: Module) -> set[str]:
    """Return the modules of the package that a module imports; of `eol.plant.calendar` not also `eol.plant`."""
    named = imported_names(module) & {other.name for other in modules()} - {module.name}
    return {name for name in named if not any(other.startswith(f"{name}.") for other in named)}


def running_nodes(node: ast.AST) -> Iterator[ast.AST]:
    """Walk a tree, leaving out what stands under `if TYPE_CHECKING`."""
    yield node
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.If) and ast.unparse(child.test).endswith("TYPE_CHECKING"):
            for other in child.orelse:
                yield from running_nodes(other)
        else:
            yield from running_nodes(child)


def _names_of(node: ast.AST, module: Module) -> Iterator[str]:
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names)
    elif isinstance(node, ast.ImportFrom):
        above = module.folder[: len(module.folder) - node.level + 1] if node.level else ()
        home = ".".join([*above, *([node.module] if node.module else [])])
        yield home
        yield from (f"{home}.{alias.name}" for alias in node.names)
