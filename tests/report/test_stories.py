"""The planted stories of the demo on the page of their shifts, and the decoys that must stay silent."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cache

import pytest

from eol.demo.build import DemoResult
from eol.facts.shift import ShiftFacts, shift_facts
from eol.report.look import Look
from eol.report.needs_a_look import SHOWN, needs_a_look
from eol.report.titles import bays_title, pareto_title, zones_title
from eol.store.connect import open_copy

FactsOf = Callable[[int, str], ShiftFacts]


@pytest.fixture(scope="module")
def facts_of(demo_plant: DemoResult) -> FactsOf:
    """The facts of a shift of September, read once."""

    @cache
    def read(day: int, shift: str) -> ShiftFacts:
        with open_copy(demo_plant.folder) as copy:
            return shift_facts(copy, production_date=date(2026, 9, day), shift=shift)

    return read


def look_with(facts: ShiftFacts, words: str) -> Look:
    """The one line whose head has these words."""
    (look,) = [look for look in needs_a_look(facts) if words in look.head]
    return look


@pytest.mark.slow
def test_worn_nozzle_is_named_on_its_nights(facts_of: FactsOf) -> None:
    """S1: the seam leak leads the title, its zone the map, and the line starts at RR-QTR."""
    facts = facts_of(14, "night")
    assert pareto_title(facts.pareto, facts.signals).startswith(
        "Leak at a sealed seam: 16, usually"
    )
    assert zones_title(facts.zones, facts.signals).startswith("Right rear quarter: 16 of 56 placed")
    assert look_with(facts, "sealed seam").start.startswith("WL-SEAM: 16 at RR-QTR")


@pytest.mark.slow
def test_worn_nozzle_is_named_again(facts_of: FactsOf) -> None:
    """S1: the next night is as bad and is named as well, the shifts before its nights are not."""
    assert look_with(facts_of(15, "night"), "sealed seam").start.startswith("WL-SEAM: 20 at RR-QTR")
    for day, shift in ((10, "night"), (11, "day"), (14, "day")):
        changed = facts_of(day, shift).signals.changed
        assert all(one.code != "WL-SEAM" for one in changed)


@pytest.mark.slow
def test_blind_bay_is_too_good(facts_of: FactsOf) -> None:
    """S2: by the fourth day bay B has passed more than its neighbours, and they are not named."""
    facts = facts_of(10, "night")
    assert bays_title(facts.bays, facts.signals).startswith("Bay W B passes more than")
    assert look_with(facts, "Bay W B").start.startswith("Can it see? 8 of 1047 failed in 8 shifts")
    assert {one.name for one in facts.signals.bays} == {"W B", "E2-2"}


@pytest.mark.slow
def test_false_bench_is_named_with_its_code(facts_of: FactsOf) -> None:
    """S5: the bench that calls the charge port too often is named, with the code behind it."""
    facts = facts_of(14, "night")
    look = look_with(facts, "E2-2")
    assert look.head == "E2-2: fails with EL-CHARGE pass elsewhere without a repair"
    assert {one.code for one in facts.signals.bays} == {None, "EL-CHARGE"}


@pytest.mark.slow
def test_more_opening_roofs_are_mix(facts_of: FactsOf) -> None:
    """S7: drain leaks are up because more roofs open, not because more of these leak."""
    facts = facts_of(24, "night")
    assert (
        pareto_title(facts.pareto, facts.signals) == "Roof drain leaks inside up: mix, not process"
    )
    look = look_with(facts, "mix, not process")
    assert look.start.startswith("51% of the units can have it, before 24%")
    assert all(one.code != "WL-DRAIN" for one in facts.signals.changed)


@pytest.mark.slow
def test_glass_leaks_that_lead_by_luck_are_silent(facts_of: FactsOf) -> None:
    """S8: glass leaks top the water codes of one shift; nothing is said of them."""
    facts = facts_of(22, "night")
    water = [row for row in facts.pareto.rows if row.test == "water"]
    assert water[0].code == "WL-GLASS"
    assert all(one.code != "WL-GLASS" for one in facts.signals.changed)
    assert not any("glass" in look.head.lower() for look in needs_a_look(facts))


@pytest.mark.slow
def test_stories_of_the_telling_shift_are_the_first_lines(facts_of: FactsOf) -> None:
    """What runs in the night of 14 September: blind bay, worn nozzle, clip lot, false bench; a line each."""
    heads = [look.head for look in needs_a_look(facts_of(14, "night"))[:SHOWN]]
    named = (
        "132 void tests",
        "Leak at a sealed seam",
        "Rattle of the tail trim",
        "E2-2: fails with",
    )
    assert [any(head.startswith(words) for head in heads) for words in named] == [True] * 4
