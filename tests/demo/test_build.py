"""The demo: its files through the tool give what the generator knows to be true."""

from __future__ import annotations

import json
import shutil
from collections import Counter
from pathlib import Path
from typing import Any

import plants
import pytest
from store_tables import changed, tables

from eol.demo.build import DemoResult, build_demo
from eol.errors import PlantFileError
from eol.plant.folder import PlantFolder
from eol.sqlfiles import demo_folder

Truth = dict[str, Any]
TEST = ("presented", "tested", "passed_first", "defects", "void_runs", "aborted_runs")
LINE = ("built", "went_through", "failed_one", "undecided")


@pytest.fixture(scope="module")
def told() -> Truth:
    """What the generator knows: truth.json."""
    return dict(json.loads((demo_folder() / "truth.json").read_text(encoding="utf-8")))


def by_shift(folder: PlantFolder, *views: str) -> dict[tuple[str, ...], dict[str, Any]]:
    """The rows of some views by production date, shift and, where they have one, test."""
    found: dict[tuple[str, ...], dict[str, Any]] = {}
    for view in views:
        for row in plants.rows(folder, view):
            key = tuple(str(row[n]) for n in ("production_date", "shift", "test") if n in row)
            found[key] = found.get(key, {}) | row
    return found


def test_figures_of_tests_are_true(demo_plant: DemoResult, told: Truth) -> None:
    """Tested, passed first time, defects and void runs of every shift and test."""
    rows = by_shift(demo_plant.folder, "ftt_by_shift", "dphu_by_shift")
    seen = {k: tuple(row[name] for name in TEST) for k, row in rows.items() if k[1] != "None"}
    true = {
        (shift["production_date"], shift["shift"], test): tuple(figures[name] for name in TEST)
        for shift in told["shifts"]
        for test, figures in shift["tests"].items()
    }
    assert seen == true


def test_re_export_counts_nowhere(demo_plant: DemoResult, told: Truth) -> None:
    """The runs that came again an hour later are void, also where they fall between two shifts."""
    between = plants.rows(demo_plant.folder, "ftt_by_shift", shift=None)
    doubles = plants.count(demo_plant.folder, "run", void_reason="suspect_double")
    assert doubles == demo_plant.loaded.doubles > 0
    assert [row["tested"] for row in between] == [0]
    assert [row["presented"] for row in between] == [row["void_runs"] for row in between]


def test_figures_of_the_line_are_true(demo_plant: DemoResult, told: Truth) -> None:
    """Built, gone through, failed and undecided of every shift's cohort."""
    rows = by_shift(demo_plant.folder, "line_by_shift")
    true = {
        (s["production_date"], s["shift"]): [s["line"][n] for n in LINE] for s in told["shifts"]
    }
    seen = {key: [row[name] for name in LINE] for key, row in rows.items()}
    assert seen == true


@pytest.mark.slow
def test_record_is_whole(demo_plant: DemoResult, told: Truth) -> None:
    """Every unit, run and repair of the record stands in the store, once."""
    record, folder = told["record"], demo_plant.folder
    runs = Counter(plants.column(folder, "run", "test", counts=True))
    assert set(runs) == set(record["runs"])
    assert plants.count(folder, "repair") == record["repairs"]
    kinds = Counter(plants.column(folder, "unit", "kind", in_schedule=True))
    assert kinds == {name: n for name, n in record["units"].items() if name != "unscheduled"}
    assert plants.count(folder, "unit", in_schedule=False) == record["units"]["unscheduled"]


def test_every_file_is_loaded(demo_plant: DemoResult, told: Truth) -> None:
    """Clean and dirty files alike come in, none of their rows is refused, one file came twice."""
    files = {file.path.name: file for file in demo_plant.loaded.files}
    assert {name: file.rows for name, file in files.items()} == {
        Path(file["path"]).name: file["rows"] for file in told["files"]
    }
    states = Counter(file.state for file in files.values())
    assert states == {"loaded": len(files) - 1, "known": 1}
    assert sum(file.rejected for file in files.values()) == 0


def test_page_is_of_the_telling_shift(demo_plant: DemoResult, told: Truth) -> None:
    """The page tells of the shift with most stories, and words say what stands out in it."""
    telling = told["telling_shift"]
    assert demo_plant.shift == f"{telling['production_date']}/{telling['shift']}"
    assert demo_plant.page.parent == demo_plant.folder.reports
    assert "Quillbrook" in demo_plant.page.read_text(encoding="utf-8")
    assert any(words.startswith("Water test: ") for words in demo_plant.look_at)


@pytest.mark.slow
def test_demo_again_changes_nothing(demo_plant: DemoResult, tmp_path: Path) -> None:
    """A demo that is there is loaded again: every file is known, the page byte for byte the same."""
    root = Path(shutil.copytree(demo_plant.folder.root, tmp_path / "again"))
    before, page = tables(PlantFolder(root), without={}), demo_plant.page.read_bytes()
    again = build_demo(root)
    assert {file.state for file in again.loaded.files} == {"known"}
    assert again.page.read_bytes() == page
    assert changed(before, tables(PlantFolder(root), without={})) == []


def test_folder_of_another_plant_is_left_alone(tmp_path: Path) -> None:
    """A folder with another plant.toml is refused by name and stays as it is."""
    (tmp_path / "plant.toml").write_text("[plant]\n", encoding="utf-8")
    with pytest.raises(PlantFileError, match=r"holds another plant[\s\S]*eol demo FOLDER"):
        build_demo(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["plant.toml"]
