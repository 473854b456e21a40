"""Computed figures are written only where they differ, and published at once where that is quick."""

from __future__ import annotations

from dataclasses import asdict, replace

import builders as b
import plants
import pytest

from eol.errors import StoreError
from eol.load.answers import write_answers
from eol.load.waiting import has_work
from eol.plant.folder import PlantFolder
from eol.plant.settings import read_settings
from eol.store.connect import open_store, write_lock
from eol.words import Answer

RANK = Answer("pareto_window", "rank", test="water", code="LEAK", n=3, value=1, low=1, high=2)
RANGE = Answer("usual_range", "ftt", test="water", n=24, value=0.9, low=0.8, high=1.0, method="p′")


def write(folder: PlantFolder, *rows: Answer, **options: object) -> bool:
    """Write the answers of the early shift of a Tuesday."""
    return write_answers(folder, b.TUESDAY, "E", rows, **options)  # type: ignore[arg-type]


def told(folder: PlantFolder) -> list[Answer]:
    """The answers in the published copy."""
    names = list(asdict(RANK))
    found = plants.rows(folder, "answer", production_date=b.TUESDAY, shift="E")
    return sorted((Answer(**{n: row[n] for n in names}) for row in found), key=str)


def test_answers_are_published(folder: PlantFolder) -> None:
    """What was computed stands in the copy that analysts read, whole."""
    assert write(folder, RANK, RANGE)
    assert told(folder) == sorted([RANK, RANGE], key=str)


def test_a_large_store_is_not_copied_for_answers(
    folder: PlantFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A page of ten years does not wait for a copy of ten years: the next load publishes what it computed."""
    monkeypatch.setattr("eol.store.publish.SMALL", 0)
    before = folder.read_copy.stat().st_ino
    assert write(folder, RANK)
    assert (folder.read_copy.stat().st_ino, told(folder)) == (before, [])
    assert has_work(folder, read_settings(folder.toml))
    plants.load(folder)
    assert told(folder) == [RANK]
    assert not has_work(folder, read_settings(folder.toml))


def test_the_same_answers_write_nothing(folder: PlantFolder) -> None:
    """A page made twice leaves the store alone and needs no lock."""
    write(folder, RANK, RANGE)
    before = folder.store.stat().st_mtime_ns
    with write_lock(folder):
        assert not write(folder, RANGE, RANK, wait_seconds=0)
    assert folder.store.stat().st_mtime_ns == before


def test_answers_to_a_question_are_replaced_together(folder: PlantFolder) -> None:
    """A code that has no rank any more loses its row; another question keeps its answers."""
    write(folder, RANK, replace(RANK, code="HISS"), RANGE)
    write(folder, replace(RANK, value=2))
    assert told(folder) == sorted([replace(RANK, value=2.0), RANGE], key=str)
    write(folder, questions={"pareto_window"})
    assert told(folder) == [RANGE]


def test_between_shifts(folder: PlantFolder) -> None:
    """What was tested between shifts has answers without a shift."""
    write_answers(folder, b.TUESDAY, None, [RANK])
    write_answers(folder, b.TUESDAY, None, [replace(RANK, value=2)])
    assert [row["value"] for row in plants.rows(folder, "answer", shift=None)] == [2.0]


def test_patience_has_an_end(folder: PlantFolder) -> None:
    """While another process writes, the answers wait, and say who kept them from being written."""
    with write_lock(folder), pytest.raises(StoreError, match="in use by process"):
        write(folder, RANK, wait_seconds=0)
    assert told(folder) == []


def test_no_store(folder: PlantFolder) -> None:
    """A copy alone, without its store, takes no answers and no empty store is made."""
    folder.store.unlink()
    with pytest.raises(StoreError, match="no store"):
        write(folder, RANK)
    assert not folder.store.exists()


@pytest.mark.slow
def test_unstamped_rows_are_not_published(folder: PlantFolder) -> None:
    """While stamps are due answers wait in the store until the next load publishes both."""
    plants.killed_after_commit(folder, b.file("water", b.run("U1", "08:00")))
    with write_lock(folder), open_store(folder) as store:
        store.run("load", "touch_all")
    write(folder, RANK)
    assert told(folder) == []
    plants.load(folder)
    assert told(folder) == [RANK]
    assert plants.count(folder, "first_run") == 1
