"""What the README shows is so: its commands run on the demo plant, and its SELECTs give the views' figures."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import polars as pl
import pytest
from polars.testing import assert_frame_equal
from source_tree import ROOT

from eol.ask.sql import ask_copy
from eol.cli import run
from eol.demo.build import DemoResult
from eol.plant.folder import PlantFolder

README = (ROOT / "README.md").read_text(encoding="utf-8")
STATEMENTS = re.findall(r"^```sql\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
LINES = re.findall(r"^eol (--plant quillbrook .*)$", README, re.MULTILINE)
KEY = ["production_date", "shift", "test"]
VIEWS = {"ftt_by_shift": KEY, "dphu_by_shift": KEY, "pareto_by_shift": [*KEY, "code"]}
"""The views whose figures the SELECTs give, in their order, with what names a row."""


@pytest.fixture(scope="module")
def quillbrook(demo_plant: DemoResult, tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """The demo plant as `eol demo` leaves it, to write to."""
    root = tmp_path_factory.mktemp("readme") / "quillbrook"
    shutil.copytree(demo_plant.folder.root, root)
    return PlantFolder(root)


@pytest.mark.slow
@pytest.mark.parametrize("line", LINES)
def test_line_runs(line: str, quillbrook: PlantFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    """A line that asks the demo plant is done: 0, or 1 where something needs a look."""
    monkeypatch.chdir(quillbrook.root.parent)
    assert run(shlex.split(line.split(" > ")[0])) in {0, 1}


def test_first_run_and_tests_are_one_line_each() -> None:
    """Install and first run are one line, and so are the tests: the two that `.ci/run` takes from here."""
    lines = README.splitlines()
    assert sum(line.endswith("bin/eol demo") for line in lines) == 1
    assert sum(line.endswith("bin/pytest") for line in lines) == 1


@pytest.mark.parametrize(("view", "key"), VIEWS.items())
def test_select_rebuilds_the_view(view: str, key: list[str], quillbrook: PlantFolder) -> None:
    """A SELECT over a base view gives the figures of the view that it is shown beside, row for row."""
    statement = STATEMENTS[list(VIEWS).index(view)]
    rebuilt = ask_copy(quillbrook, statement).sort(key)
    shown = ask_copy(quillbrook, f"SELECT * FROM {view}").sort(key)
    if "tested" in shown.columns:
        shown = shown.filter(pl.col("tested") > 0)
    assert rebuilt.height > 0
    assert_frame_equal(rebuilt, shown.select(rebuilt.columns), check_dtypes=False)


def test_pages_named_in_it_are_there() -> None:
    """Files that the README links to are in the repository."""
    linked = re.findall(r"\]\(([^)#:]+)\)", README)
    assert [name for name in linked if not (ROOT / Path(name)).exists()] == []


SHOWN = re.findall(
    r"^```sh\n(eol --plant quillbrook [^\n]*)\n```\n\n```text\n(.*?)^```$",
    README,
    re.DOTALL | re.MULTILINE,
)


@pytest.mark.parametrize(
    ("line", "output"),
    [pytest.param(*one, marks=[pytest.mark.slow] if " report " in one[0] else []) for one in SHOWN],
)
def test_shown_output_is_real(
    line: str,
    output: str,
    quillbrook: PlantFolder,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """What the README shows below a command is what the command prints."""
    monkeypatch.chdir(quillbrook.root.parent)
    assert run(shlex.split(line)[1:]) == 0
    printed = capsys.readouterr().out
    assert [row.rstrip() for row in printed.splitlines()] == output.splitlines()


SCRIPTS = re.findall(r"^```python\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)


@pytest.mark.slow
@pytest.mark.parametrize("script", SCRIPTS)
def test_python_runs(script: str, quillbrook: PlantFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    """The lines of Python run as they are written, one after the other."""
    monkeypatch.chdir(quillbrook.root.parent)
    assert len(script.splitlines()) > 5
    exec(compile(script, "README.md", "exec"), {})


def test_three_commands_show_their_output() -> None:
    """The first screen has three commands with what they print; others follow below."""
    assert len(SHOWN) >= 3
