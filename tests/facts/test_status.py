"""The status of the whole plant around that of a shift."""

from __future__ import annotations

import builders as b
import pytest

from eol.errors import UsageError
from eol.facts.status import plant_status
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy


def test_status_of_a_named_shift(small_plant: PlantFolder) -> None:
    """The shift named is told; counts are of the whole store."""
    with open_copy(small_plant) as copy:
        status = plant_status(copy, now=b.at("12:05"), shift="2026-09-08/E")
    assert status.belief is not None
    assert status.belief.facts.asked.name == "2026-09-08/E"
    assert (status.counts["units"], status.counts["runs"]) == (4, 8)


def test_before_any_shift_has_ended(blank_plant: PlantFolder) -> None:
    """An empty store has no shift to believe, and nothing to look at."""
    with open_copy(blank_plant) as copy:
        status = plant_status(copy, now=b.at("12:05"))
    assert (status.belief, status.findings, status.needs_a_look) == (None, (), False)


def test_between_shifts_has_no_status(small_plant: PlantFolder) -> None:
    """What was tested between shifts belongs to no shift that could settle or be believed."""
    with open_copy(small_plant) as copy, pytest.raises(UsageError, match="no status of its own"):
        plant_status(copy, now=b.at("12:05"), shift="2026-09-08/between")


def test_queue_stands_in_the_status(small_plant: PlantFolder) -> None:
    """What came, what was cleared and how long that takes is one line, and part of the answer."""
    with open_copy(small_plant) as copy:
        queue = plant_status(copy, now=b.at("12:05"), shift="2026-09-08/E").queue
    assert queue is not None
    assert queue.words.startswith(
        f"Repair queue, {queue.shifts} shifts: 2 came, 1 cleared, 1 repairs"
    )
