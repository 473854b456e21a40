"""What all tests share: property tests are never timed, for a shared machine has no steady speed.

Plants that only are read are made once: an empty one, a small one and the demo.
"""

from __future__ import annotations

import os
import pickle
import shutil
import sys
from pathlib import Path

# Two test processes share two cores: more threads of each would only wait for one another.
os.environ.setdefault("POLARS_MAX_THREADS", "1")
os.environ.setdefault("EOL_THREADS", "1")
# Compiled code is kept: each command that a test starts would else compile the whole package again.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

import plants
import pytest
from filelock import FileLock
from hypothesis import settings

from eol.demo.build import DemoResult, build_demo
from eol.plant.folder import PlantFolder

settings.register_profile("plain", deadline=None, derandomize=True)
settings.load_profile("plain")


def pytest_configure() -> None:
    """Let the processes of the tests keep compiled code too."""
    sys.dont_write_bytecode = False


@pytest.fixture(scope="session")
def blank_plant(tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """A plant of `builders.settings()` whose store has its schema and views, and no rows; to read."""
    return plants.made(tmp_path_factory.mktemp("blank") / "plant")


@pytest.fixture
def folder(blank_plant: PlantFolder, tmp_path: Path) -> PlantFolder:
    """The same plant, for one test to write to; its path has a blank and an umlaut."""
    root = tmp_path / "Werk Süd"
    shutil.copytree(blank_plant.root, root)
    return PlantFolder(root)


@pytest.fixture(scope="session")
def small_plant(tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """A loaded plant of four units and one shift; to read."""
    small = plants.made(tmp_path_factory.mktemp("small") / "plant")
    plants.load(small, *plants.small_files())
    return small


@pytest.fixture(scope="session")
def demo_plant(tmp_path_factory: pytest.TempPathFactory) -> DemoResult:
    """The demo plant, loaded, with the page of its most telling shift; to read. All processes share it."""
    place = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        place = place.parent
    kept = place / "demo_plant.pickle"
    with FileLock(kept.with_suffix(".lock")):
        if not kept.exists():
            kept.write_bytes(pickle.dumps(build_demo(place / "demo_plant" / "quillbrook")))
    result = pickle.loads(kept.read_bytes())
    assert isinstance(result, DemoResult)
    return result
