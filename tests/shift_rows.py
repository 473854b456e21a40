"""Rows of whole shifts in one call, and the questions of a shift: what the tests of the status share."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime, timedelta
from typing import Any

import builders as b

from eol.facts.asked import Question, ask_of
from eol.facts.believe import Belief, believe
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy

Row = dict[str, Any]
NOW = b.at("15:10")
"""The wall clock of a Tuesday, some minutes after the runs of `heard_after`."""


def vins(n: int, first: int = 1) -> list[str]:
    """Short VINs, U001 and so on."""
    return [f"U{number:03d}" for number in range(first, first + n)]


def built(names: list[str], day: date = b.TUESDAY, clock: str = "06:30") -> list[Row]:
    """Rows of the units feed: units that left the line in the early shift of a day."""
    return [b.unit(name, line_off_at=b.at(clock, day)) for name in names]


def runs(
    names: list[str], clock: str, *, every: float = 4, day: date = b.TUESDAY, **fields: Any
) -> list[Row]:
    """Passing runs of units one after the other, the first ending at a local time."""
    first = b.at(clock, day)
    return [
        row
        for number, name in enumerate(names)
        for row in b.run(name, first + timedelta(minutes=every * number), **fields)
    ]


def heard_after(day: date = b.TUESDAY, *tests: str) -> list[Any]:
    """A run of each test in the shift after the early one, so that no station is silent since its end."""
    clocks = zip(tests, ("14:50", "14:55", "15:00"), strict=False)
    rows = {test: b.run("U999", b.at(clock, day), test=test) for test, clock in clocks}
    return [b.file(test, row, name=f"{test}_after") for test, row in rows.items()]


@contextmanager
def asking(folder: PlantFolder, *, day: date = b.TUESDAY, shift: str = "E") -> Iterator[Question]:
    """The questions of a shift of the published copy."""
    with open_copy(folder) as copy:
        question = ask_of(copy, day, shift)
        assert question is not None
        yield question


def belief_of(
    folder: PlantFolder,
    *,
    now: datetime = NOW,
    day: date | None = b.TUESDAY,
    shift: str | None = "E",
) -> Belief:
    """Whether the early shift of that Tuesday can be believed."""
    with open_copy(folder) as copy:
        belief = believe(copy, now=now, production_date=day, shift=shift)
    assert belief is not None
    return belief


def texts(belief: Belief, *kinds: str) -> list[str]:
    """The sentences of some kinds."""
    return [one.text for one in belief.remarks if one.kind in kinds]
