"""Has a shift settled, and what does it wait for (rule 11)?"""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import builders as b
import plants
from shift_rows import asking, built, runs

from eol.facts.settling import Settling, WaitedFor, settling_facts, settling_remarks
from eol.plant.folder import PlantFolder

THURSDAY = b.TUESDAY + timedelta(days=2)
UNITS = ["U1", "U2"]


def load_day(folder: PlantFolder, *, water: list[str], later: tuple[str, ...]) -> Settling:
    """Two units of a Tuesday; on Thursday some tests send something newer."""
    plants.load(
        folder,
        b.file("units", built(UNITS)),
        b.file("electrical", runs(UNITS, "07:00", test="electrical")),
        b.file("water", runs(water, "07:10")),
        *(
            b.file(test, b.run("U9", b.at("08:00", THURSDAY), test=test), name=f"{test}_later")
            for test in later
        ),
    )
    with asking(folder) as question:
        return settling_facts(question)


def test_settled(folder: PlantFolder) -> None:
    """Every station and the schedule have sent something newer, every unit is decided: no sentence."""
    settling = load_day(folder, water=UNITS, later=("electrical", "water"))
    assert (settling.settled, settling.built, settling.units) == (True, 2, 0)
    assert list(settling_remarks(settling)) == []


def test_waits_for_station_and_unit(folder: PlantFolder) -> None:
    """The station that sent nothing newer, and the unit without a water test, are named."""
    settling = load_day(folder, water=UNITS[:1], later=("electrical",))
    assert (settling.stations, settling.units_feed, settling.reached) == (("W1",), False, True)
    assert settling.waited_for == (WaitedFor("water", "untested", 1),)
    (note,) = settling_remarks(settling)
    assert note.text == (
        "not settled: it waits for data from after 2026-09-09 14:00 of W1"
        " and 1 unit to be decided (1 untested in water)"
    )


def settling(**fields: Any) -> Settling:
    """A shift past its settle time that waits for nothing that is known."""
    base: dict[str, Any] = {"built": 2, "settled": False, "reached": True, "stations": ()}
    base |= {"settles_at": b.at("14:00"), "units_feed": False, "units": 0, "waited_for": ()}
    return Settling(**base | fields)


def test_words() -> None:
    """Before its time a shift waits for that; then for the units feed; without a cohort for nothing."""

    def told(**fields: Any) -> list[str]:
        return [one.text for one in settling_remarks(settling(**fields))]

    wait = "not settled: it waits for data from after 2026-09-08 14:00"
    assert told(reached=False, stations=("W1",)) == [wait]
    assert told(units_feed=True) == ["not settled: it waits for a newer file of the units feed"]
    assert told() == ["not settled"]
    assert told(built=0) == []
