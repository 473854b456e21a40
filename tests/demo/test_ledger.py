from dataclasses import replace

import pytest

from eol.demo.ledger import Ledger
from eol.demo.plan import SHIFTS
from eol.demo.record import Record
from eol.demo.world import Fault, Run

LEAK = Fault("WL-TAIL", "TAIL", "rear", 0.0)


@pytest.fixture
def clean(record: Record) -> Run:
    """A passed water run in the first shift."""
    start = SHIFTS[0].starts
    unit = record.world.units[0]
    return Run(unit, "water", "W", "A", None, start, start + 240, "pass", "normal")


def test_the_first_counted_run_decides(clean: Run) -> None:
    """A void run before it is counted apart, a pass after it changes nothing (rules 4, 7 and 9)."""
    ledger = Ledger()
    for run in (
        replace(clean, void="weak"),
        replace(clean, result="fail", findings=(LEAK,)),
        clean,
    ):
        ledger.book(run)
    tally = ledger.tallies[0, "water"]
    assert (tally.void_runs, tally.tested, tally.passed_first, tally.defects) == (1, 1, 0, 1)
    assert ledger.standing(clean.unit, "water").clear


def test_a_code_and_zone_count_once(clean: Run) -> None:
    """At whatever step (rule 8)."""
    ledger = Ledger()
    ledger.book(replace(clean, result="fail", findings=(LEAK, replace(LEAK, step="front"))))
    assert ledger.tallies[0, "water"].defects == 1


def test_other_kinds_are_not_counted(record: Record, clean: Run) -> None:
    """Trial and reference vehicles are in no figure (rule 13)."""
    ledger = Ledger()
    ledger.book(replace(clean, unit=record.world.references[0]))
    assert not ledger.tallies


def test_a_run_between_shifts_is_a_mistake(clean: Run) -> None:
    """The generator makes none."""
    with pytest.raises(ValueError, match="between shifts"):
        Ledger().book(replace(clean, ended=SHIFTS[0].ends))
