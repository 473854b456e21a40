"""Foreign clients: DuckDB 1.5 in an environment of its own and Node's client, fetched from their registries."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
collect_ignore = ["read.py"]


@pytest.fixture(scope="session")
def old_python(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    """The command of a Python with DuckDB 1.5 and nothing of this project."""
    place = tmp_path_factory.mktemp("old") / "venv"
    subprocess.run([sys.executable, "-m", "venv", str(place)], check=True)
    pip = [str(place / "bin" / "python"), "-m", "pip", "install", "-q", "duckdb>=1.5,<1.6"]
    subprocess.run(pip, check=True)
    return [str(place / "bin" / "python"), str(HERE / "read.py")]


@pytest.fixture(scope="session")
def node(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    """The command of a Node script with DuckDB's client."""
    place = tmp_path_factory.mktemp("node")
    (place / "read.mjs").write_text((HERE / "read.mjs").read_text("utf-8"), "utf-8")
    npm = ["npm", "install", "--no-audit", "--no-fund", "--silent", "@duckdb/node-api"]
    subprocess.run(npm, check=True, cwd=place)
    return ["node", str(place / "read.mjs")]


@pytest.fixture(scope="session")
def own_python() -> list[str]:
    """The command of this Python with its DuckDB, without this package."""
    return [sys.executable, str(HERE / "read.py")]
