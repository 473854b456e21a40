"""Actions entered by command: files like any other, never lost, and loaded the same from the files alone."""

from __future__ import annotations

import shutil
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import plants
import pytest

from eol.errors import EolError, UsageError
from eol.load.action import ActionEntry, change_action, open_action
from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder

NOW = datetime(2026, 9, 30, 12, 0, tzinfo=UTC)
LEAK = ActionEntry(code="LEAK", text="New seal", due_on=date(2026, 10, 2))


@pytest.fixture
def known(small_plant: PlantFolder, tmp_path: Path) -> PlantFolder:
    """A plant that knows the code LEAK, to write to."""
    return PlantFolder(shutil.copytree(small_plant.root, tmp_path / "plant"))


def standing(folder: PlantFolder) -> list[tuple[object, ...]]:
    """The register, without what tells of files."""
    names = ("action_id", "code", "text", "opened_on", "from_build_seq", "cut_in_at", "closed_on")
    return [tuple(row[n] for n in names) for row in plants.rows(folder, "countermeasure")]


@pytest.mark.slow
def test_entries_come_back_from_their_files(known: PlantFolder) -> None:
    """Opened, changed and closed within one second: the last stands, also where the files alone are loaded."""
    name = open_action(known, LEAK, now=NOW)
    cut_in = datetime(2026, 10, 1, 6, 0)
    change_action(known, name, ActionEntry(from_build_seq=7, cut_in_at=cut_in), now=NOW)
    change_action(known, name, ActionEntry(closed_on=date(2026, 10, 5)), now=NOW)
    rows = standing(known)
    at = datetime(2026, 10, 1, 4, 0, tzinfo=UTC)
    opened = date(2026, 9, 30)
    assert name == "A-20260930-140000"
    assert rows == [(name, "LEAK", "New seal", opened, 7, at, date(2026, 10, 5))]
    files = sorted(known.taken.glob("countermeasures_action_*.jsonl"), reverse=True)
    assert (len(files), list(known.inbox.glob("*.jsonl"))) == (3, [])
    blank = plants.made(known.root.parent / "blank")
    ingest(blank, files)
    assert standing(blank) == rows


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        (ActionEntry(code="LEAKS"), "no code is named LEAKS\n  The nearest is LEAK."),
        (ActionEntry(code="LEAK", test="wate"), "no test is named wate\n  The nearest is water."),
        (ActionEntry(code="LEAK", expected_ratio=2.0), "lies between 0 and 1, not 2.0"),
    ],
)
def test_what_cannot_be_used_changes_nothing(
    small_plant: PlantFolder, entry: ActionEntry, words: str
) -> None:
    """A code, test or ratio that cannot be is told with the nearest right one; no file is left."""
    with pytest.raises(UsageError, match=r"named|between") as told:
        open_action(small_plant, entry, now=NOW)
    assert words in str(told.value)
    assert not list(small_plant.inbox.rglob("*.jsonl"))


def test_ids_are_neither_taken_twice_nor_made_up(known: PlantFolder) -> None:
    """An id that is there cannot be opened again; one that is not cannot be changed."""
    entry = ActionEntry(action_id="CM-1", code="LEAK", opened_on=date(2026, 9, 1))
    open_action(known, entry, now=NOW)
    with pytest.raises(UsageError, match="there is an action CM-1 already"):
        open_action(known, entry, now=NOW + timedelta(seconds=1))
    with pytest.raises(UsageError, match=r"there is no action CM-2\n.*nearest is CM-1"):
        change_action(known, "CM-2", ActionEntry(), now=NOW)
    with pytest.raises(EolError, match="closed_on"):
        change_action(known, "CM-1", ActionEntry(closed_on=date(2026, 8, 1)), now=NOW)
    assert len(standing(known)) == 1
