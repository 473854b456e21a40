"""The repair queue: the worked median, whose repairs count, units that still wait, ages, and no unit at all."""

from __future__ import annotations

import builders as b
import pytest
from made_up_follow import queue, span, wait
from made_up_shift import open_units
from plants import load

from eol.facts.queue import age_bands, repair_queue
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy


def test_open_units_are_censored() -> None:
    """22 35 41 41+ 60 95 120+ 180+ minutes: half are clear within 60."""
    ended = [wait(0, minutes / 60) for minutes in (22, 35, 41, 60, 95)]
    still = [wait(32 - minutes / 60, None) for minutes in (41, 120, 180)]
    found = queue(*ended, *still)
    assert found.waits.median == pytest.approx(1.0)
    assert (found.arrivals, found.cleared, found.waits.open) == (8, 5, 3)


def test_what_ends_after_the_last_shift_still_waits() -> None:
    """A wait that ended later is open at the end of the shift."""
    found = queue(wait(30, 5), wait(1, 1))
    assert (found.arrivals, found.cleared, found.waits.open) == (2, 1, 1)


def test_stuck_units_do_not_add_up() -> None:
    """Old units that wait through all shifts are more than arrivals and time explain."""
    came = [wait(at, 1) for at in range(25)]
    stuck = [wait(-100, None) for _ in range(9)]
    assert not queue(*came).does_not_add_up
    assert queue(*came, *stuck).does_not_add_up


def test_loops_of_two_and_more() -> None:
    """Units cleared after two fails, and those that wait after two, are counted."""
    found = repair_queue(
        [wait(1, 2, fails=2), wait(3, 1)], span(), open_units(6, oldest=9.0), repairs=4
    )
    assert (found.cleared_twice, found.open_twice) == (1, 2)


def test_ages_count_each_unit_once() -> None:
    """Every waiting unit stands in one band."""
    bands = dict(age_bands(open_units(37, oldest=76.0)))
    assert sum(bands.values()) == 37
    assert bands["over 3 days"] == 1
    assert sum(dict(age_bands(())).values()) == 0


def test_nothing_came() -> None:
    """No wait at all: no median, nothing that does not add up, no error."""
    found = repair_queue([], span(1), (), repairs=0)
    assert (found.waits.median, found.arrivals, found.does_not_add_up) == (None, 0, False)
    assert found.little.ratio is None


def test_whose_repairs_count(folder: PlantFolder) -> None:
    """A reference unit's repair is none of the queue's, nor is one of class none; each repair counts once."""
    units = [b.unit("A"), b.unit("R", kind="reference")]
    repairs = [
        b.repair("A", "08:00"),
        b.repair("A", "09:00"),
        b.repair("A", "09:30", **{"class": "none"}),
        b.repair("R", "09:00"),
        b.repair("X", "09:00"),
        b.repair("A", "14:30"),
    ]
    load(folder, b.file("units", units), b.file("repairs", repairs))
    with open_copy(folder) as copy:
        found = copy.run("queue", "repair", from_at=b.at("06:00"), until=b.at("14:00"))
    assert found.rows() == [(3, 2)]
