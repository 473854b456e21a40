"""Figures written down when a shift first settles, and what a later file changes in them (rule 11)."""

from __future__ import annotations

from datetime import timedelta

import builders as b
import plants
import pytest

from eol.plant.folder import PlantFolder

THURSDAY = b.TUESDAY + timedelta(days=2)
LATER = b.MADE_AT + timedelta(days=4)
SHIFT = "settled:2026-09-08/E"
MOVED = "line_by_shift.ftt"


def load_settled(folder: PlantFolder) -> None:
    """Two units of a Tuesday, and on Thursday something newer from every station and of the schedule."""
    built = [b.unit(v, line_off_at=b.at("09:00")) for v in ("U1", "U2")]
    tests = {
        test: b.run("U1", "08:00", test=test)
        + b.run("U2", "08:10", test=test)
        + b.run("U3", b.at("08:00", THURSDAY), test=test)
        for test in ("electrical", "water")
    }
    plants.load(
        folder, b.file("units", built), *(b.file(test, rows) for test, rows in tests.items())
    )


def sent(folder: PlantFolder) -> dict[str, float | None]:
    """The line's figures that were written down."""
    rows = [row for row in plants.rows(folder, "figure_sent") if row["message_id"] == SHIFT]
    return {
        row["figure"]: row["value"] for row in rows if row["figure"].startswith("line_by_shift")
    }


def test_settled_shift_is_written_down(folder: PlantFolder) -> None:
    """The figures of a shift that has settled stand in figure_sent, once, without a recipient."""
    load_settled(folder)
    assert sent(folder)[MOVED] == 1.0
    before = plants.count(folder, "figure_sent")
    load_settled(folder)
    assert plants.count(folder, "figure_sent") == before
    assert plants.rows(folder, "figure_change") == []


def test_unsettled_shift_is_not(folder: PlantFolder) -> None:
    """Thursday's shift has nothing newer behind it, and is not written down."""
    load_settled(folder)
    shifts = {row["message_id"] for row in plants.rows(folder, "figure_sent")}
    assert shifts == {SHIFT}


@pytest.mark.slow
def test_later_file_shows_what_it_moved(folder: PlantFolder) -> None:
    """A late version turns a pass into a fail: the sent figure stays, figure_change has both."""
    load_settled(folder)
    plants.load(folder, b.file("water", b.run("U1", "08:00", "fail", "LEAK"), made_at=LATER))
    moved = {row["figure"]: row for row in plants.rows(folder, "figure_change")}
    assert (moved[MOVED]["sent_value"], moved[MOVED]["value"]) == (1.0, 0.5)
    assert sent(folder)[MOVED] == 1.0


def test_plant_that_stands_still_settles_by_its_schedule(folder: PlantFolder) -> None:
    """Tested in the next shift and followed by nothing but the units feed: settled, and written down."""
    built = [b.unit("U1", line_off_at=b.at("13:00"))]
    tests = [b.file(test, b.run("U1", "15:00", test=test)) for test in ("electrical", "water")]
    plants.load(folder, b.file("units", built), *tests)
    assert plants.column(folder, "line_by_shift", "settled", shift="E") == [True]
    assert sent(folder)[MOVED] == 1.0
