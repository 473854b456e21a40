"""What is declared is what is imported, and the lock file pins all of it."""

from __future__ import annotations

import re
import sys
import tomllib
from importlib.metadata import distribution

from packaging.requirements import Requirement
from source_tree import ROOT, imported_names, modules

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
NEEDED = [Requirement(text) for text in PROJECT["project"]["dependencies"]]
FOR_TESTS = [Requirement(text) for text in PROJECT["project"]["optional-dependencies"]["test"]]
ON_DEMAND = [Requirement(text) for text in PROJECT["project"]["optional-dependencies"]["spark"]]
LOCKED = (ROOT / "requirements.lock").read_text(encoding="utf-8").splitlines()

IMPORTED_AS = {"pillow": "PIL", "vl-convert-python": "vl_convert"}
"""Distributions that are imported by another name."""

DATA_ALONE = {"tzdata"}
"""Distributions that nobody imports: the standard library reads their files."""

COME_ALONG = {"markupsafe": "jinja2", "py4j": "pyspark", "pydantic_core": "pydantic"}
"""Modules that are part of what a declared distribution offers."""


def outside() -> set[str]:
    """Return the libraries that the package imports."""
    first = {name.split(".")[0] for module in modules() for name in imported_names(module)}
    known = {COME_ALONG.get(name, name) for name in first}
    return known - set(sys.stdlib_module_names) - {"eol"}


def test_declared_is_what_is_imported() -> None:
    """Nothing is imported that is not declared, and nothing is declared that nobody imports."""
    declared = {IMPORTED_AS.get(need.name, need.name) for need in [*NEEDED, *ON_DEMAND]}
    assert outside() == declared - DATA_ALONE


def test_lock_has_names_and_versions_alone() -> None:
    """A line of the lock file is name==version: no place to load from, no mark of a machine."""
    form = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*==[A-Za-z0-9.]+")
    assert [line for line in LOCKED if not form.fullmatch(line)] == []
    assert sorted(LOCKED, key=str.lower) == LOCKED


def plain(name: str) -> str:
    """Return a distribution's name as indexes compare it."""
    return re.sub(r"[-_.]+", "-", name).lower()


def needs_of(names: set[str]) -> set[str]:
    """Return what distributions need on this machine, extras left out."""
    wanted = {Requirement(text) for name in names for text in distribution(name).requires or []}
    met = {need for need in wanted if need.marker is None or need.marker.evaluate({"extra": ""})}
    return {plain(need.name) for need in met}


def test_lock_is_whole() -> None:
    """The lock file pins every distribution that the package and its tests need, and theirs."""
    locked = {plain(line.split("==")[0]) for line in LOCKED}
    todo = {plain(need.name) for need in [*NEEDED, *FOR_TESTS]}
    assert todo - locked == set()
    assert needs_of(todo) - locked == set()


def test_lock_keeps_to_what_is_declared() -> None:
    """Each locked version lies in the range that pyproject.toml allows."""
    versions = {plain(line.split("==")[0]): line.split("==")[1] for line in LOCKED}
    outside_range = [
        str(need)
        for need in [*NEEDED, *FOR_TESTS]
        if versions[plain(need.name)] not in need.specifier
    ]
    assert outside_range == []


def test_wheel_takes_the_folders_along() -> None:
    """queries/ and demo_parquet/ are shipped inside the package, where `eol.sqlfiles` looks for them."""
    taken = PROJECT["tool"]["hatch"]["build"]["targets"]["wheel"]["force-include"]
    told = {"DEVELOPERS.md": "eol/DEVELOPERS.md"}
    assert taken == {"queries": "eol/queries", "demo_parquet": "eol/demo_parquet"} | told
    assert not (ROOT / "eol" / "queries").exists()


def test_top_level_is_the_known_one() -> None:
    """Beside files whose names begin with a dot the top level holds what the documents name."""
    known = {
        *("DEVELOPERS.md", "LICENSE", "README.md", "pyproject.toml", "requirements.lock"),
        *("demo_parquet", "eol", "queries", "tests"),
    }
    made = {"quillbrook", "build", "dist"}
    there = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert known <= there
    assert there - known - made == set()
