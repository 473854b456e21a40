"""`eol report`: the page's path on stdout."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from called import Eol

from eol.plant.folder import PlantFolder
from eol.report.plant import report_shift


@pytest.fixture(scope="module")
def small_plant(small_plant: PlantFolder, tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """A copy of the small plant: a report writes its page, and its answers into the store."""
    return PlantFolder(
        shutil.copytree(small_plant.root, tmp_path_factory.mktemp("report") / "plant")
    )


@pytest.mark.slow
def test_path_of_the_page(eol: Eol, small_plant: PlantFolder) -> None:
    """The page lies in reports; its path is all there is; the library writes the same bytes."""
    answer = eol("--plant", small_plant.root, "report", "--shift", "2026-09-08/E")
    assert answer.code == 0
    page = Path(answer.out.strip())
    assert page.parent == small_plant.reports
    assert page.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    drawn_beside = page.read_bytes()
    report_shift(small_plant, shift="2026-09-08/E")
    assert page.read_bytes() == drawn_beside


@pytest.mark.slow
def test_json(eol: Eol, small_plant: PlantFolder) -> None:
    """As JSON: the path by name."""
    told = eol("--plant", small_plant.root, "report", "--shift", "2026-09-08/E", "--json").json
    assert Path(told["page"]).is_file()


@pytest.mark.slow
def test_all_there_is(eol: Eol, small_plant: PlantFolder) -> None:
    """With --pdf and --interactive all three paths are told."""
    answer = eol(
        "--plant", small_plant.root, "report", "--day", "2026-09-08", "--pdf", "--interactive"
    )
    names = [Path(line).name for line in answer.out.splitlines()]
    assert names == ["2026-09-08.html", "2026-09-08.pdf", "2026-09-08.interactive.html"]


def test_one_period_at_a_time(eol: Eol, small_plant: PlantFolder) -> None:
    """A shift and a day together are a wrong call."""
    answer = eol("--plant", small_plant.root, "report", "--day", "2026-09-08", "--week", "2026-W37")
    assert (answer.code, answer.out) == (2, "")
    assert "Name one of --shift, --day and --week" in answer.err


@pytest.mark.parametrize("shift", ["yesterday", "2026-09-08/noon", "2026-09-08"])
def test_no_such_shift(eol: Eol, small_plant: PlantFolder, shift: str) -> None:
    """A shift that is none: exit 2 and how to name one."""
    answer = eol("--plant", small_plant.root, "report", "--shift", shift)
    assert (answer.code, answer.out) == (2, "")
    assert shift in answer.err
