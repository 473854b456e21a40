"""Lines for what differs from usual beyond chance: each says where to start."""

from __future__ import annotations

from dataclasses import replace

import pytest
from made_up_shift import code, loud_shift, pareto, quiet_shift
from made_up_signals import bay_signal, changed, mix_shift

from eol.facts.shift import ShiftFacts
from eol.facts.signals import Signals
from eol.report.look import Look
from eol.report.look_signals import signal_looks


def looks(facts: ShiftFacts, signals: Signals) -> list[Look]:
    """The lines of a shift with some signals."""
    return list(signal_looks(replace(facts, signals=signals)))


def test_quiet_shift_has_no_line() -> None:
    """Without a signal no rule speaks."""
    assert looks(quiet_shift(), Signals()) == []


def test_changed_code_names_zone_and_bay() -> None:
    """For a code the zone and the bay with most of its units are named."""
    look, *_ = looks(loud_shift(), Signals(changed=(changed("WL-SEAM", 19),)))
    assert (look.kind, look.head) == ("look", "Leak, rear quarter seam: 19, usually 0 to 6")
    assert look.start == (
        "WL-SEAM: 19 at RR-QTR and 19 in W1 B; units listed below."
        " Water test FTT 92.0%, below its limit of 94.5%."
    )


def test_new_code_is_asked_about() -> None:
    """A code never seen before is named as new, behind what has changed."""
    both = (changed("WL-SEAM", 19), changed("WL-TAIL", 3, kind="new", usual=None))
    old, new, *_ = looks(loud_shift(), Signals(changed=both))
    assert (new.kind, new.head) == (
        "ask",
        "New code: Leak, tail lamp, 3 in this shift and never before",
    )
    assert new.cost < old.cost


@pytest.mark.parametrize(
    ("kind", "head", "end"),
    [
        ("fewer", "Bay W1 B passes more than its neighbours", "Can it see?"),
        ("more", "Bay W1 B passes fewer than its neighbours", "Do its fails pass elsewhere?"),
    ],
)
def test_bay_too_good_costs_as_much(kind: str, head: str, end: str) -> None:
    """A bay that fails too few is told as loudly as one that fails too many, and only once."""
    (look,) = looks(loud_shift(), Signals(bays=(bay_signal("W1 B", kind),)))
    assert (look.kind, look.head) == ("look", head)
    assert 46 <= look.cost <= 48
    assert end in look.start


def test_bay_and_its_code_make_one_line() -> None:
    """Where a bay differs because of one code the line says so."""
    both = (bay_signal("W1 B", "more"), bay_signal("W1 B", "more", code="WL-SEAM"))
    (look,) = looks(quiet_shift(), Signals(bays=both))
    assert "WL-SEAM 60, neighbours 59." in look.start


def test_zone_is_silent_beside_its_code() -> None:
    """A zone whose units have a changed code adds no line; another one does."""
    zone = (changed("RR-QTR", 19, test=""),)
    both = Signals(changed=(changed("WL-SEAM", 19),), zones=zone)
    assert [look.place for look in looks(loud_shift(), both)].count("p-zones") == 0
    alone = looks(loud_shift(), Signals(zones=zone))[-1]
    assert alone.head == "Rear quarter, right: 19 of 49 placed defects, usually about 2.0"


def test_mix_says_what_was_built() -> None:
    """A rise by mix gives both parts and the share of units that can have the code."""
    facts = replace(quiet_shift(), pareto=pareto(code("water", "WL-DRAIN", "Drain leaks", 7)))
    (look,) = looks(facts, Signals(mixes=(mix_shift("WL-DRAIN"),)))
    assert look.head == "Drain leaks up: mix, not process"
    assert look.start == (
        "51% of the units can have it, before 24%: +0.57 mix, +0.27 process per hundred units "
        "in 5 shifts, from 0.41 to 1.25."
    )


def test_zone_is_silent_beside_a_mix() -> None:
    """A zone whose leading code is up by mix alone is no finding of its own."""
    zone = (changed("RR-QTR", 19, test=""),)
    told = looks(loud_shift(), Signals(zones=zone, mixes=(mix_shift("WL-SEAM"),)))
    assert [look.place for look in told].count("p-zones") == 0
