"""What was known on a morning: the files loaded by then, in the versions of then."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import builders as b
import plants
import pytest

from eol.ask.questions import ask_question
from eol.ask.session import open_session
from eol.plant.folder import PlantFolder

MONDAY, TUESDAY, LATER = (datetime(2026, 9, day, 4, 5, tzinfo=UTC) for day in (9, 10, 11))


def known(folder: PlantFolder, at: datetime) -> tuple[object, ...]:
    """Tested and first-time-through of the water test as known at a moment, and as known now."""
    with open_session(folder) as session:
        rows = ask_question(session, "ftt_as_known", {"known_at": at})
    [row] = [row for row in rows.to_dicts() if row["test"] == "water"]
    return tuple(row[name] for name in ("tested_then", "ftt_then", "tested_now", "ftt_now"))


@pytest.mark.slow
def test_late_and_amended_runs(folder: PlantFolder) -> None:
    """A run that came late was not known; one that was amended was known as it stood before (rule 1)."""
    units = b.file("units", [b.unit("U1"), b.unit("U2"), b.unit("U3")])
    first = b.file("water", b.run("U1") + b.run("U2", "08:10"), name="water_1")
    plants.load(folder, units, first, now=MONDAY)
    plants.load(folder, b.file("water", b.run("U3", "08:20"), name="water_2"), now=TUESDAY)
    amended = b.file(
        "water",
        b.run("U2", "08:10", "fail", "LEAK/RRQ"),
        name="water_3",
        made_at=b.MADE_AT + timedelta(days=1),
    )
    plants.load(folder, amended, now=LATER)
    assert known(folder, datetime(2026, 9, 1, tzinfo=UTC))[:2] == (0, None)
    assert known(folder, MONDAY) == (2, 1.0, 3, 2 / 3)
    assert known(folder, TUESDAY) == (3, 1.0, 3, 2 / 3)
    assert known(folder, LATER) == (3, 2 / 3, 3, 2 / 3)
