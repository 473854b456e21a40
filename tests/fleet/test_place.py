"""A lake lies in a folder or behind a URI, and is reached the same way."""

from __future__ import annotations

from pathlib import Path

import pytest

from eol.errors import EngineError
from eol.fleet.place import Place, open_place


@pytest.fixture(params=["folder", "uri"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Place:
    """A place named as a folder with a blank, and as a URI."""
    return (
        open_place(tmp_path / "my lake")
        if request.param == "folder"
        else open_place(f"file://{tmp_path}/lake")
    )


def test_text_is_replaced_whole(place: Place) -> None:
    """What is written is read; nothing but the file is left in its folder."""
    place.write_text("_manifest/P1.json", "one")
    place.write_text("_manifest/P1.json", "zwölf")
    assert place.read_text("_manifest/P1.json") == "zwölf"
    assert place.listed("_manifest") == ("P1.json",)


def test_what_is_not_there(place: Place) -> None:
    """A file that is not there has no text, a folder that is not there no files; both can be removed."""
    assert place.read_text("none.json") is None
    assert place.listed("none") == ()
    place.remove("none.json")
    place.clear("none")


def test_move_replaces_and_may_be_repeated(place: Place) -> None:
    """A file takes the place of another; done again it changes nothing."""
    place.write_text("waits", "new")
    place.write_text("run/part", "old")
    place.move("waits", "run/part")
    place.move("waits", "run/part")
    assert place.read_text("run/part") == "new"
    assert place.present(["waits", "run/part"]) == {"run/part"}


def test_move_of_nothing_is_an_error(place: Place) -> None:
    """Where neither the file nor its place is there, that is told."""
    with pytest.raises(FileNotFoundError):
        place.move("waits", "run/part")


def test_address_that_nothing_knows() -> None:
    """A URI of an unknown kind is no place."""
    with pytest.raises(EngineError, match="no place for a lake"):
        open_place("nonsense://bucket/lake")
