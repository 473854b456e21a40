"""Can a shift be believed: the first line, its doubts, and what only needs a look."""

from __future__ import annotations

from datetime import date

import builders as b
import plants
import pytest
from shift_rows import belief_of, built, heard_after, runs, texts, vins

from eol.demo.build import DemoResult
from eol.errors import UsageError
from eol.facts.believe import believe
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy

UNITS = vins(20)


def load_shift(folder: PlantFolder, *, weak: int = 0, untested: int = 0) -> None:
    """Twenty units of the early shift; of some the water test is too weak, some never came to it."""
    water = runs(UNITS[weak : 20 - untested], "07:10")
    water += runs(UNITS[:weak], "07:10", pressure_kpa=180.0, bay="B")
    plants.load(
        folder,
        b.file("units", built(UNITS)),
        b.file("electrical", runs(UNITS, "07:00", test="electrical")),
        b.file("water", water),
        *heard_after(b.TUESDAY, "electrical", "water"),
    )


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> PlantFolder:
    """Twenty units, one of them without a water test; to read."""
    folder = plants.made(tmp_path_factory.mktemp("whole") / "plant")
    load_shift(folder, untested=1)
    return folder


def test_few_without_a_test_are_told(whole: PlantFolder) -> None:
    """Up to 5 % without a run that counts leave the figures believable; the line says how many."""
    belief = belief_of(whole)
    told = "The figures of 2026-09-08/E can be believed: 19 of 20 units tested in full."
    assert texts(belief, "look") == []
    assert (belief.believed, belief.headline, belief.needs_a_look) == (True, told, False)
    assert texts(belief, "doubt", "look", "note") == [
        "Water: 1 of 20 units has no run that counts (1 untested)",
        "not settled: it waits for data from after 2026-09-09 14:00"
        " and 1 unit to be decided (1 untested in water)",
    ]


def test_many_void_units_are_a_doubt(folder: PlantFolder) -> None:
    """A bay that cannot see leaves its units pending: not yet, and the bay is named (rule 4)."""
    load_shift(folder, weak=6, untested=1)
    belief = belief_of(folder)
    doubt = "Water: 7 of 20 units have no run that counts (6 with void runs only and 1 untested)"
    assert belief.headline == f"The figures of 2026-09-08/E cannot be believed yet: {doubt}."
    assert not belief.believed
    assert "W1 bay B: 6 of 6 runs do not count (weak)" in texts(belief, "look")


def test_running_shift(whole: PlantFolder) -> None:
    """A shift that the data have not passed is not believed, and is told with both times."""
    (doubt,) = texts(belief_of(whole, shift="L"), "doubt")
    assert doubt == "it ends 2026-09-08 22:00, the data reach 2026-09-08 14:55"


def test_last_shift_that_ended_is_meant(whole: PlantFolder) -> None:
    """Without a name the last shift that ended by the data clock is told."""
    asked = belief_of(whole, day=None, shift=None).facts.asked
    assert (asked.name, f"{asked.starts_at:%H:%M}") == ("2026-09-08/E", "06:00")


def test_silent_since_the_end(folder: PlantFolder) -> None:
    """A station that ran in the shift and sent nothing since its end keeps it in doubt."""
    plants.load(
        folder,
        b.file("units", built(UNITS)),
        b.file("electrical", runs(UNITS, "07:00", test="electrical")),
        b.file("water", runs(UNITS, "08:00")),
        *heard_after(b.TUESDAY, "electrical"),
    )
    assert texts(belief_of(folder), "doubt") == ["W1 has sent nothing since the shift's end"]


def test_empty_shift(whole: PlantFolder) -> None:
    """A shift without a unit is not believed: a missing record is no record of nothing."""
    belief = belief_of(whole, day=date(2026, 9, 7), shift="N")
    assert texts(belief, "doubt") == ["no unit left the line or was tested in it"]


def test_without_line_off_the_least_tested_speaks(folder: PlantFolder) -> None:
    """Where no unit left the line and no like shift was before, the line says that nothing tells."""
    tests = [b.file(t, runs(UNITS, "08:00", test=t)) for t in ("electrical", "water")]
    plants.load(folder, *tests, *heard_after(b.TUESDAY, "electrical", "water"))
    told = "20 units tested in Electrical; nothing tells how many to expect."
    assert belief_of(folder).headline.endswith(told)


def test_nothing_loaded(blank_plant: PlantFolder) -> None:
    """While no shift has ended there is nothing to believe."""
    with open_copy(blank_plant) as copy:
        assert believe(copy, now=b.at("15:00")) is None


def test_no_such_shift(blank_plant: PlantFolder) -> None:
    """A shift that the calendar does not have is the caller's mistake."""
    with open_copy(blank_plant) as copy, pytest.raises(UsageError, match="no shift '2026-09-08/X'"):
        believe(copy, now=b.at("15:00"), production_date=b.TUESDAY, shift="X")


DEMO_NOW = b.at("03:30", date(2026, 9, 26))


@pytest.mark.parametrize(
    ("day", "shift", "kind", "beginning", "end"),
    [
        pytest.param(
            *(2, "day", "note", "clock_offset adds 11 min to the times of E1-1 and E1-2", "usual"),
            marks=pytest.mark.slow,
        ),
        (14, "night", "look", "W bay B: ", "runs do not count (weak)"),
        (16, "night", "look", "26 runs of W bay C, 01:14 to 02:29, came 25 h", "20260918_0300.csv"),
        pytest.param(
            *(21, "day", "look", "101 doubled runs", "101 in all"), marks=pytest.mark.slow
        ),
    ],
)
def test_demo_stories_are_named(
    demo_plant: DemoResult, day: int, shift: str, kind: str, beginning: str, end: str
) -> None:
    """The demo's slow clock, blind bay, silent bay and re-export are told of their shifts."""
    belief = belief_of(demo_plant.folder, now=DEMO_NOW, day=date(2026, 9, day), shift=shift)
    told = [text for text in texts(belief, kind) if text.startswith(beginning)]
    assert [text.endswith(end) for text in told] == [True]


def test_demo_blind_bay_is_a_doubt(demo_plant: DemoResult) -> None:
    """On its first day the blind bay left more than 5 % of the units without a test that could see."""
    belief = belief_of(demo_plant.folder, now=DEMO_NOW, day=date(2026, 9, 11), shift="day")
    (doubt,) = texts(belief, "doubt")
    assert doubt.startswith("Water test: 106 of 400 units have no run that counts")


def test_demo_quiet_shift(demo_plant: DemoResult) -> None:
    """A shift without a story: believed, no clock, no silence; only the plant's doubles ask for a look."""
    belief = belief_of(demo_plant.folder, now=DEMO_NOW, day=date(2026, 9, 23), shift="day")
    assert belief.believed
    assert [text.split(" (")[0] for text in texts(belief, "look")] == ["101 doubled runs"]
