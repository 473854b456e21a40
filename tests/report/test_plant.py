"""The page of a plant's shift: which shift, where it lies, with the plant's own targets."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import builders as b
import plants
import pytest

from eol.errors import PlantFileError, StoreError, UsageError
from eol.plant.folder import PlantFolder
from eol.report.plant import report_day, report_shift, report_week
from eol.store.connect import write_lock


@pytest.fixture
def small(small_plant: PlantFolder, tmp_path: Path) -> PlantFolder:
    """The small plant, with a place for its pages."""
    return PlantFolder(shutil.copytree(small_plant.root, tmp_path / "plant"))


def test_named_shift(small: PlantFolder) -> None:
    """A shift is named by its date and name; the page lies in reports."""
    page = report_shift(small, shift="2026-09-08/E")
    assert page.parent == small.reports
    text = page.read_text(encoding="utf-8")
    assert "Quillbrook" in text
    assert "2026-09-08" in text


@pytest.mark.slow
def test_same_page_twice(small: PlantFolder) -> None:
    """The same store gives the same page, byte for byte, and one file."""
    page = report_shift(small, shift="2026-09-08/E")
    first = page.read_bytes()
    assert report_shift(small, shift="2026-09-08/E") == page
    assert page.read_bytes() == first


def test_last_shift_that_ended(small: PlantFolder) -> None:
    """Without a name it is the last shift that ended before the data clock: the night before."""
    assert report_shift(small) == report_shift(small, shift="2026-09-07/N")


@pytest.mark.slow
def test_later_data_end_a_shift(small: PlantFolder) -> None:
    """Once data of the next shift come, the shift has ended."""
    plants.load(small, b.file("water", b.run("U5", "14:30"), name="water_later"))
    assert report_shift(small) == report_shift(small, shift="2026-09-08/E")


@pytest.mark.slow
def test_between_two_shifts(folder: PlantFolder) -> None:
    """What was tested between two shifts has a page of its own."""
    plants.declare(folder, b.settings(shift=[{"name": "E", "starts": "06:00", "ends": "14:00"}]))
    plants.load(folder, b.file("water", b.run("U1", "15:00")))
    page = report_shift(folder, shift="2026-09-08/between")
    assert page != report_shift(folder, shift="2026-09-08/E")


@pytest.mark.slow
def test_targets_of_the_plant(small: PlantFolder) -> None:
    """The targets of plant.toml stand on the page, and change with it."""
    before = report_shift(small, shift="2026-09-08/E").read_bytes()
    plants.declare(small, b.settings(report={"target": {"line_ftt": 0.77}}))
    after = report_shift(small, shift="2026-09-08/E").read_bytes()
    assert before != after
    assert b"77" in after


@pytest.mark.parametrize("shift", ["2026-09-08/X", "yesterday/E", "E", "2026-09-08"])
def test_no_such_shift(small: PlantFolder, shift: str) -> None:
    """A shift that is none is a wrong call, and no page is written."""
    with pytest.raises(UsageError, match=r"\n  "):
        report_shift(small, shift=shift)
    assert list(small.reports.glob("*.html")) == []


@pytest.mark.slow
def test_day_and_week(small: PlantFolder) -> None:
    """A day and a week have pages of their own, made from the same parts, and the list leads to them."""
    day = report_day(small, "2026-09-08", also=("pdf",))
    week = report_week(small, "2026-W37")
    assert (day.name, week.name) == ("2026-09-08.html", "2026-W37.html")
    text = week.read_text(encoding="utf-8")
    assert "week 37 · 7 Sep to Sun 13 Sep 2026" in text
    assert "eol report --week 2026-W37" in text
    assert "in this shift" not in text
    listed = (small.reports / "index.html").read_text(encoding="utf-8")
    assert all(f'href="{page.name}"' in listed for page in (day, week))


@pytest.mark.slow
def test_form_of_the_plant(small: PlantFolder) -> None:
    """Dates and numbers are written as plant.toml says, on page, figures and PDF alike."""
    plants.declare(small, b.settings(report={"dates": "month-day", "decimal": ","}))
    text = report_shift(small, shift="2026-09-08/E").read_text(encoding="utf-8")
    assert "Tue Sep 8 2026" in text
    assert "33,3%" in text
    assert not re.search(r"\d\.\d%", text)


def test_no_shift_yet(folder: PlantFolder) -> None:
    """A plant without data has no shift that ended."""
    with pytest.raises(UsageError, match="no shift has ended yet"):
        report_shift(folder)


def test_nothing_loaded_yet(folder: PlantFolder) -> None:
    """A plant without a copy is told to load first."""
    folder.read_copy.unlink()
    with pytest.raises(StoreError, match="Run eol ingest first"):
        report_shift(folder, shift="2026-09-08/E")


def test_broken_plant_file(small: PlantFolder) -> None:
    """A broken plant.toml is told before anything is read."""
    small.toml.write_text("[plant\n", encoding="utf-8")
    with pytest.raises(PlantFileError, match=r"plant\.toml"):
        report_shift(small, shift="2026-09-08/E")


@pytest.mark.slow
def test_answers_are_written_with_the_page(small: PlantFolder) -> None:
    """What is computed for the page stands in the published copy, and joins the views."""
    report_shift(small, shift="2026-09-08/E")
    rows = plants.rows(small, "pareto_window", production_date=b.TUESDAY, shift="E")
    assert [row["code"] for row in rows] != []
    assert all(row["rank_low"] <= row["rank"] <= row["rank_high"] for row in rows)
    assert all(row["low"] < row["per_100_at_risk"] < row["high"] for row in rows)


@pytest.mark.slow
def test_second_page_needs_no_lock(small: PlantFolder) -> None:
    """A page made again writes nothing: it needs no lock and says so by silence."""
    first = report_shift(small, shift="2026-09-08/E").read_text(encoding="utf-8")
    with write_lock(small):
        again = report_shift(small, shift="2026-09-08/E", wait_seconds=0)
    assert again.read_text(encoding="utf-8") == first


@pytest.mark.slow
def test_page_is_written_while_the_store_is_in_use(small: PlantFolder) -> None:
    """While another process writes the page is made all the same, with a remark."""
    with write_lock(small):
        page = report_shift(small, shift="2026-09-08/E", wait_seconds=0)
    text = page.read_text(encoding="utf-8")
    assert "What was computed is not in the table answer" in text
    assert "The store has been in use by process" in text
    assert plants.count(small, "answer") == 0
