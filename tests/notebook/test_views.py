"""The methods of an open plant are the views of the copy."""

from __future__ import annotations

import inspect

import pytest

from eol.ask.dictionary import dictionary
from eol.errors import UsageError
from eol.notebook.plant import OpenPlant
from eol.notebook.views import Views
from eol.plant.folder import PlantFolder
from eol.sqlfiles import sql_files

NAMES = [file.name for file in sql_files("views")]


def test_one_method_a_view() -> None:
    """Each view of queries/views is a method, and each method but `table` is a view."""
    methods = {name for name, _ in inspect.getmembers(Views, inspect.isfunction) if name[0] != "_"}
    assert methods == {*NAMES, "table"}


def test_methods_say_what_a_row_is(small_plant: PlantFolder) -> None:
    """The docstring of a method ends with the view's comment."""
    words = dictionary(small_plant)
    for name in NAMES:
        told = " ".join((inspect.getdoc(getattr(Views, name)) or "").split())
        assert told.endswith(words.relation(name).comment), name


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_view_gives_its_rows(small_plant: PlantFolder, name: str) -> None:
    """A method gives the columns of its view, in their order."""
    plant = OpenPlant(small_plant)
    columns = [column.name for column in dictionary(small_plant).relation(name).columns]
    assert getattr(plant, name)().columns == columns


def test_rows_that_equal(small_plant: PlantFolder) -> None:
    """Columns are asked for by name; null matches null; tables are there too."""
    plant = OpenPlant(small_plant)
    assert plant.ftt_by_shift(test="water", shift="E")["passed_first"].to_list() == [1]
    assert plant.table("run", bay=None, test="electrical").height == 3
    with pytest.raises(UsageError, match="no table or view named 'nothing'"):
        plant.table("nothing")
