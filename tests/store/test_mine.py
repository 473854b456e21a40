"""The plant's own views: made anew in each copy; a faulty one is left out and told."""

from __future__ import annotations

import builders as b
import plants
import pytest

from eol.ask.dictionary import dictionary
from eol.ask.sql import ask_copy
from eol.plant.folder import PlantFolder
from eol.store.mine import own_views
from eol.store.publish import publish_again


def keep(folder: PlantFolder, name: str, text: str) -> None:
    """Write a file of the plant's own views."""
    (folder.root / "mine").mkdir(exist_ok=True)
    (folder.root / "mine" / f"{name}.sql").write_text(text, encoding="utf-8")


def test_view_is_made_with_its_words(folder: PlantFolder) -> None:
    """A file with a SELECT is a view of the copy; its first line says what a row is; one may read another."""
    keep(
        folder,
        "a_rate",
        "-- One row is a test's leaks.\nSELECT test, leaks + 1 AS more FROM mine.leaks;\n",
    )
    keep(folder, "leaks", "SELECT test, count(*) AS leaks FROM run GROUP BY test")
    assert publish_again(folder)[1] == ()
    plants.load(folder, b.file("water", b.run("U1")))
    assert ask_copy(folder, "FROM mine.a_rate").rows() == [("water", 2)]
    words = dictionary(folder)
    assert words.relation("mine.a_rate").comment == "One row is a test's leaks."


@pytest.mark.slow
def test_view_survives_every_load(folder: PlantFolder) -> None:
    """Each load replaces the copy, and the view stands in the new one."""
    keep(folder, "runs", "SELECT count(*) AS n FROM run")
    for number in range(1, 3):
        plants.load(folder, b.file("water", b.run(f"U{number}"), name=f"water_{number}"))
        assert ask_copy(folder, "FROM mine.runs").item() == number


FAULTY = {
    "gone": ("SELECT nothing FROM run", "nothing"),
    "wrong": ("SELEKT 1", "syntax error"),
    "writes": ("DELETE FROM run", "not one SELECT"),
    "two": ("SELECT 1 AS n; SELECT 2 AS n", "not one SELECT"),
    "file": ("SELECT * FROM read_csv('/etc/passwd')", "file system operations are disabled"),
    "Odd name": ("SELECT 1 AS n", "no name of a view"),
}
"""Files that are no views, each with what is told of it."""


def test_faulty_views_are_left_out_and_told(folder: PlantFolder) -> None:
    """Those that cannot be made stop neither the copy nor the others."""
    for name, (text, _) in FAULTY.items():
        keep(folder, name, text)
    keep(folder, "good", "SELECT 1 AS n")
    told = {view.path.stem: view.fault for view in publish_again(folder)[1]}
    assert set(told) == set(FAULTY)
    assert [name for name, (_, words) in FAULTY.items() if words not in told[name]] == []
    assert ask_copy(folder, "FROM mine.good").item() == 1


def test_no_folder_no_views(folder: PlantFolder) -> None:
    """A plant without own views has no schema for them."""
    assert own_views(folder) == ()
    assert not any(r.name.startswith("mine.") for r in dictionary(folder).relations)
