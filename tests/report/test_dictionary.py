"""The dictionary as a page."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from eol.ask.dictionary import Dictionary, dictionary
from eol.errors import ReportError
from eol.plant.folder import PlantFolder
from eol.report.dictionary import POLICY, dictionary_page, report_dictionary


@pytest.fixture(scope="module")
def words(small_plant: PlantFolder) -> Dictionary:
    """The dictionary of a small plant."""
    return dictionary(small_plant)


def test_page_has_everything(words: Dictionary) -> None:
    """Each table, view, column and rule stands in it, and each link has its place."""
    page = dictionary_page(words)
    places = re.findall(r' id="([^"]+)"', page)
    assert len(places) == len(set(places))
    assert {r.name for r in words.relations} | {f"rule-{n}" for n in range(1, 19)} <= set(places)
    assert set(re.findall(r'href="#([^"]+)"', page)) <= set(places)
    assert page.count('<th scope="row">') == sum(len(r.columns) for r in words.relations)


def test_page_needs_nothing_else(words: Dictionary) -> None:
    """No script, no outside address, and a policy that forbids both."""
    page = dictionary_page(words)
    assert "<script" not in page
    assert "http" not in re.sub(r"<meta http-equiv[^>]*>", "", page)
    assert POLICY in page.replace("&#39;", "'")


def test_words_are_escaped(words: Dictionary) -> None:
    """A comment is text, whatever it holds."""
    odd = replace(words.relations[0], comment="<script>alert(1)</script>")
    page = dictionary_page(Dictionary((odd,)))
    assert "<script" not in page
    assert "&lt;script&gt;" in page


def test_page_is_written_whole(folder: PlantFolder) -> None:
    """The page lies in the folder reports, with nothing beside it."""
    path = report_dictionary(folder)
    assert path == folder.reports / "dictionary.html"
    assert path.read_text(encoding="utf-8").endswith("</html>\n")
    assert [p.name for p in folder.reports.iterdir() if "dictionary" in p.name] == [path.name]


def test_folder_that_cannot_be_written(folder: PlantFolder, tmp_path: Path) -> None:
    """A page that cannot be written is told with its path."""
    folder.reports.rmdir()
    folder.reports.write_text("in the way")
    with pytest.raises(ReportError, match=r"dictionary\.html: the page cannot be written"):
        report_dictionary(folder)
