"""The dictionary in a notebook."""

from __future__ import annotations

from dataclasses import replace

import pytest

from eol.ask.dictionary import Dictionary, dictionary
from eol.errors import UsageError
from eol.notebook.docs import Docs
from eol.plant.folder import PlantFolder


@pytest.fixture(scope="module")
def docs(small_plant: PlantFolder) -> Docs:
    """The dictionary of a small plant."""
    return Docs(dictionary(small_plant))


def test_everything(docs: Docs) -> None:
    """All tables and views with what a row is, as text and as a table."""
    assert "ftt_by_shift | view | One row is the first-time-through" in repr(docs)
    assert docs._repr_html_().count("<tr>") == 1 + len(docs.words.relations)


def test_one(docs: Docs) -> None:
    """One of them column by column; its frame has its columns alone."""
    one = docs("open_unit")
    assert "hours | DOUBLE | h |" in repr(one)
    assert set(one.frame["name"]) == {"open_unit"}
    assert one._repr_html_().startswith("<p>One row is a production unit x test")


def test_unknown(docs: Docs) -> None:
    """A name that is not there names the nearest."""
    with pytest.raises(UsageError, match="Did you mean open_unit"):
        docs("open_units")


def test_escaped(docs: Docs) -> None:
    """A comment is text, whatever it holds."""
    odd = replace(docs.words.relations[0], comment="<script>")
    assert "<script>" not in Docs(Dictionary((odd,)))._repr_html_()
