"""Over a hundred hostile statements: nothing is written, nothing outside is read, each is refused in words."""

from __future__ import annotations

from pathlib import Path

import hostile
import pytest

from eol.ask.limits import Limits
from eol.ask.session import Session, open_session
from eol.ask.sql import ask_copy
from eol.errors import UsageError
from eol.plant.folder import PlantFolder

ENDLESS = hostile.lines(hostile.ENDLESS)
FORBIDDEN = {
    "writes": hostile.lines(hostile.WRITES),
    "files": hostile.lines(hostile.FILES),
    "settings": hostile.lines(hostile.SETTINGS),
}
TIGHT = Limits(seconds=0.2, memory="120MB")


def everything(folder: PlantFolder) -> dict[Path, tuple[int, int]]:
    """Every file of a plant with its size and time."""
    found = [(path, path.stat()) for path in folder.root.rglob("*")]
    return {path: (stat.st_size, stat.st_mtime_ns) for path, stat in found}


def refusal(session: Session, statement: str) -> str:
    """What a statement is refused with; nothing where it ran."""
    try:
        session.ask(statement)
    except UsageError as error:
        return error.what if error.hint else ""
    return ""


def test_there_are_a_hundred() -> None:
    """The lists hold more than a hundred different statements."""
    assert len({*ENDLESS, *(one for some in FORBIDDEN.values() for one in some)}) > 100


@pytest.mark.parametrize("kind", FORBIDDEN)
def test_refused(small_plant: PlantFolder, kind: str) -> None:
    """What writes, reaches a file or changes a setting is refused in words; the session goes on as it was."""
    before = everything(small_plant)
    with open_session(small_plant) as session:
        told = {
            one: refusal(session, one.format(place=small_plant.reports)) for one in FORBIDDEN[kind]
        }
        assert session.ask("SELECT count(*) AS n FROM run")["n"].to_list() == [8]
    assert [statement for statement, words in told.items() if not words] == []
    assert [words for words in told.values() if "root:" in words] == []
    assert everything(small_plant) == before


@pytest.mark.parametrize(
    "statement",
    [pytest.param(s, marks=[pytest.mark.slow] * (n % 3 > 0)) for n, s in enumerate(ENDLESS)],
)
def test_limited(small_plant: PlantFolder, statement: str) -> None:
    """A statement without end stops at a limit of time or memory, and nothing is spilt to disk."""
    before = everything(small_plant)
    with pytest.raises(UsageError, match=r"was stopped|more than 120MB of memory"):
        ask_copy(small_plant, statement, limits=TIGHT)
    assert everything(small_plant) == before
