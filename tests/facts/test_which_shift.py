"""Which shift is asked about."""

from __future__ import annotations

import builders as b
import pytest

from eol.errors import UsageError
from eol.facts.which_shift import last_shift, named_shift
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy


def test_last_shift_that_ended_by_the_data_clock(small_plant: PlantFolder) -> None:
    """The data reach noon of Tuesday: the night before has ended, the early shift has not."""
    with open_copy(small_plant) as copy:
        assert last_shift(copy) == (b.TUESDAY.replace(day=7), "N")


def test_none_has_ended(blank_plant: PlantFolder) -> None:
    """Without data no shift has ended."""
    with open_copy(blank_plant) as copy:
        assert last_shift(copy) is None


def test_named(small_plant: PlantFolder) -> None:
    """A shift is DATE/SHIFT; between is the time between shifts of that date."""
    with open_copy(small_plant) as copy:
        assert named_shift(copy, "2026-09-08/E") == (b.TUESDAY, "E")
        assert named_shift(copy, "2026-09-08/between") == (b.TUESDAY, None)


@pytest.mark.parametrize(
    ("text", "told"),
    [("yesterday", "'yesterday' names no shift"), ("2026-09-08/X", "Shifts of that day: E, L, N")],
)
def test_no_such_shift(small_plant: PlantFolder, text: str, told: str) -> None:
    """A wrong name is the caller's mistake, told with the right ones."""
    with open_copy(small_plant) as copy, pytest.raises(UsageError, match=told):
        named_shift(copy, text)
