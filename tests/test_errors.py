"""The error tree: three parts of a message, and an exit code a class."""

from __future__ import annotations

import re

import pytest

import eol.errors
from eol.errors import EolError, FeedFileError, PlantFileError, StoreError, UsageError


def kinds(parent: type[EolError] = EolError) -> list[type[EolError]]:
    """Return the classes of the tree below a class."""
    children = parent.__subclasses__()
    return [*children, *(kind for child in children for kind in kinds(child))]


def test_drawn_tree_is_the_tree() -> None:
    """The picture at the top of the module names each class with its exit code."""
    drawn = re.findall(r"── (\w+) .*exit (\d)", eol.errors.__doc__ or "")
    built = [(kind.__name__, str(kind.exit_code)) for kind in kinds()]
    assert sorted(drawn) == sorted(built)


def test_exit_codes() -> None:
    """2 where the caller or plant.toml was wrong, 3 where a file, the store or the program failed."""
    assert {UsageError.exit_code, PlantFileError.exit_code} == {2}
    assert {EolError.exit_code, FeedFileError.exit_code, StoreError.exit_code} == {3}


def test_message_has_three_parts() -> None:
    """A message says where, what and what to do next."""
    error = FeedFileError("no column 'vin'", where="water.csv", hint="Map it in plant.toml.")
    assert str(error) == "water.csv: no column 'vin'\n  Map it in plant.toml."


def test_place_may_be_missing() -> None:
    """Without a place the message begins with what went wrong."""
    assert str(UsageError("no such shift", hint="Try day.")) == "no such shift\n  Try day."


def test_hint_of_the_class_steps_in() -> None:
    """Where nothing better is known, the class says what to do next."""
    assert str(StoreError("disk full")).endswith(StoreError.default_hint)
    assert UsageError("no such shift").hint == ""


@pytest.mark.parametrize("kind", kinds(), ids=lambda kind: kind.__name__)
def test_each_kind_is_caught_as_one(kind: type[EolError]) -> None:
    """One handler catches every error of the tool, and its parts can be read apart."""
    with pytest.raises(EolError) as caught:
        raise kind("what", where="where", hint="hint")
    assert (caught.value.what, caught.value.where, caught.value.hint) == ("what", "where", "hint")
