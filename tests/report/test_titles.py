"""The titles of the panels, made by rule for loud and for quiet shifts."""

from __future__ import annotations

from dataclasses import replace

import pytest
from made_up_shift import (
    LOUD_BAYS,
    code,
    empty_shift,
    loud_shift,
    open_units,
    pareto,
    quiet_shift,
    safety_unit,
    series,
    wave,
    zones,
)
from made_up_signals import bay_signal, changed, mix_shift, ranked

from eol.facts.ftt import FttSeries
from eol.facts.signals import Signals
from eol.facts.zones import Zones
from eol.report import titles


def test_loud_shift() -> None:
    """Each title of a loud shift is the finding, with its number."""
    facts = loud_shift()
    assert [
        titles.ftt_title(facts.tests),
        titles.pareto_title(facts.pareto, facts.signals),
        titles.zones_title(facts.zones, facts.signals),
        titles.bays_title(facts.bays, facts.signals),
        titles.open_title(facts.open_units),
        titles.safety_title(facts.safety_units),
    ] == [
        "Water test fell below usual; the other two did not move",
        "Leak, rear quarter seam: 19, usually 0 to 6",
        "Rear quarter, right: 19 of 49 placed defects, usually about 2.0",
        "Bay W1 B passes fewer than its neighbours",
        "37 units wait, 12 of them over a day",
        "2 units have a safety-related finding, 1 from this shift",
    ]


def test_quiet_shift() -> None:
    """A quiet shift is said to be quiet, panel by panel."""
    facts = quiet_shift()
    assert [
        titles.ftt_title(facts.tests),
        titles.pareto_title(facts.pareto, facts.signals),
        titles.zones_title(facts.zones, facts.signals),
        titles.bays_title(facts.bays, facts.signals),
        titles.open_title(facts.open_units),
        titles.safety_title(facts.safety_units),
    ] == [
        "All three tests are in their usual range",
        "No code has changed beyond chance: 37 defects",
        "No zone stands out",
        "No bay differs from its neighbours",
        "21 units wait, none over a day",
        "No safety-related finding without a release",
    ]


def test_empty_shift() -> None:
    """A shift without a unit is told so instead of shown as an empty chart."""
    facts = empty_shift()
    assert titles.ftt_title(facts.tests) == "No unit was tested in this shift"
    assert titles.pareto_title(facts.pareto) == "No defect was found in this shift"
    assert titles.zones_title(facts.zones) == "No zone of the unit is known"
    assert titles.bays_title(facts.bays) == "No bay tested a unit in this shift"
    assert titles.open_title(facts.open_units) == "No unit waits"


def test_missing_test_is_named() -> None:
    """A required test without any unit is the finding, before all others."""
    facts = loud_shift()
    untested = empty_shift().tests[2]
    assert (
        titles.ftt_title([*facts.tests[:2], untested])
        == "No unit had its squeak and rattle track in this shift"
    )


@pytest.mark.parametrize(
    ("last", "title"),
    [
        (0.999, "Water test rose above usual"),
        (0.90, "Water test fell below usual"),
        (0.97, "The test is in its usual range"),
    ],
)
def test_too_good_is_told_as_well(last: float, title: str) -> None:
    """A test above its limit is a finding too: it may have stopped to see."""
    assert titles.ftt_title([series("water", wave(0.95, 0.002, last))]).startswith(title)


def few() -> FttSeries:
    """Return a test with too little history."""
    return series("water", wave(0.95, 0.002, 0.94), limits=False)


def test_no_usual_range_is_said_in_words() -> None:
    """With fewer than 12 settled shifts the title gives the value and no judgement."""
    assert titles.ftt_title([few()]) == "Water test 94.0%: too few shifts for a usual range"


def test_leading_code_without_usual_counts() -> None:
    """Without usual ranges the leader is named, but not where two codes lead."""
    one, two = code("w", "A", "Leak", 5), code("w", "B", "Creak", 3)
    assert titles.pareto_title(pareto(one, two)) == "Leak leads: 5 of 8 defects"
    assert titles.pareto_title(pareto(one, code("w", "B", "", 5))) == "No code leads: 10 defects"


def test_few_defects_make_no_zone() -> None:
    """Two defects at one place are no gathering."""
    assert titles.zones_title(zones(2, 1)) == "No zone stands out"
    assert titles.zones_title(Zones((), (), 3)) == "No zone of the unit is known"
    assert titles.zones_title(zones(0, 0)) == "No defect has a place on the map"


def test_mostly_void_bay_comes_first() -> None:
    """A bay that could not see is told before one that differs."""
    void = replace(LOUD_BAYS[0], void_runs=130, presented=131)
    assert titles.bays_title((void, *LOUD_BAYS)) == "Bay E1 1: 130 void runs"


def test_one_unit() -> None:
    """One unit waits, and one has a finding: the grammar follows."""
    assert titles.open_title(open_units(1, oldest=2.0)) == "1 unit waits, none over a day"
    assert titles.safety_title((safety_unit(1),)) == "1 unit has a safety-related finding"


def test_full_zone_is_named_without_history() -> None:
    """A zone with 16 of 56 defects stands out, also where nothing is known of what is usual."""
    title = titles.zones_title(zones(16, 10, 8, 8, 6, 4, 2, 2))
    assert title == "16 of 56 placed defects: Rear quarter, right"


@pytest.mark.parametrize(
    ("more", "title"),
    [
        ({}, "Leak: 9, usually 0 to 6"),
        ({"shifts": 3}, "Leak: 9 in 3 shifts, usually about 2.0"),
        ({"kind": "sooner", "gap": 30}, "Leak again after 30 units, sooner than usual"),
        ({"kind": "new", "usual": None}, "New code: Leak, 9 in this shift and never before"),
    ],
)
def test_change_of_a_code(more: dict[str, object], title: str) -> None:
    """A code that changed is told as it was found: in this shift, over some, by its gap, or as new."""
    made = pareto(code("water", "WL-SEAM", "Leak", 9, usual=(0, 6)))
    assert titles.pareto_title(made, Signals(changed=(changed("WL-SEAM", 9, **more),))) == title


def test_new_codes_come_after_changed_ones() -> None:
    """A code that rose stands in the title; how many more changed is counted."""
    made = pareto(code("water", "A", "Leak", 9), code("water", "B", "Drip", 1))
    both = (changed("B", 1, kind="new", usual=None), changed("A", 9))
    title = titles.pareto_title(made, Signals(changed=both))
    assert title == "Leak: 9, usually about 2.0; one more changed"


def test_mix_is_no_process() -> None:
    """A rise that its units at risk do not have is told as mix."""
    made = pareto(code("water", "WL-DRAIN", "Drain leaks", 7, usual=(0, 9)))
    title = titles.pareto_title(made, Signals(mixes=(mix_shift("WL-DRAIN"),)))
    assert title == "Drain leaks up: mix, not process"


@pytest.mark.parametrize(("kind", "word"), [("fewer", "more"), ("more", "fewer")])
def test_too_good_as_loud_as_too_bad(kind: str, word: str) -> None:
    """A bay that fails fewer units than its neighbours makes the same title as one that fails more."""
    title = titles.bays_title(LOUD_BAYS[:4], Signals(bays=(bay_signal("W1 A", kind),)))
    assert title == f"Bay W1 A passes {word} than its neighbours"


def test_bay_that_differs_by_one_code() -> None:
    """A code that comes from one bay names both."""
    signal = bay_signal("W1 A", "more", code="WL-SEAM")
    title = titles.bays_title(LOUD_BAYS[:4], Signals(bays=(signal,)))
    assert title == "W1 A finds WL-SEAM more often than its neighbours"


def test_window_says_how_sure_its_leader_is() -> None:
    """A leader that others may pass is not called first for sure."""
    sure = titles.window_title([ranked("A", 90, 1, 1), ranked("B", 9, 2, 2)])
    open_race = titles.window_title([ranked("A", 10, 1, 2), ranked("B", 9, 1, 2)])
    assert sure == "A leads the last 20 shifts"
    assert open_race == "Two codes may lead the last 20 shifts"
    assert titles.window_title([]) == "No defect in the last 20 shifts"
