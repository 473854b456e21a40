"""What needs a look, and in which order."""

from __future__ import annotations

from dataclasses import replace

from made_up_shift import (
    CLOCK,
    DAY,
    TITLES,
    empty_shift,
    header,
    loud_shift,
    quiet_shift,
    series,
    vin,
    wave,
)

from eol.facts.late import LateReport
from eol.facts.mix import ALL_FAILS, MixShift
from eol.facts.signals import Signals
from eol.facts.units import Escape
from eol.report.needs_a_look import needs_a_look


def test_loud_shift_is_ranked_by_cost() -> None:
    """Escapes before safety findings, void tests, FTT, codes, target, bays, silent stations."""
    looks = needs_a_look(loud_shift())
    assert [(look.kind, look.head) for look in looks] == [
        ("stop", "1 escape"),
        ("stop", "1 unit with a safety-related finding"),
        ("look", "9 void tests, usually 0 to 8"),
        ("look", "Leak, rear quarter seam: 19, usually 0 to 6"),
        ("look", "Line FTT 82.2% is below its target of 90%"),
        ("look", "Bay W1 B passes fewer than its neighbours"),
        ("data", "1 station not heard from since the shift's end"),
    ]


def test_each_line_says_where_to_start() -> None:
    """No line leaves the reader without a first step, and each leads to a place."""
    assert all(look.start and look.place for look in needs_a_look(loud_shift()))


def test_one_line_tells_a_test_and_the_code_that_explains_it() -> None:
    """The line of the code says how far its test is below; a test that no code explains has its own."""
    (told,) = [look for look in needs_a_look(loud_shift()) if "Water test FTT" in look.start]
    assert told.head.startswith("Leak, rear quarter seam")
    assert told.start.endswith(" Water test FTT 92.0%, below its limit of 94.5%.")
    unexplained = replace(loud_shift(), signals=Signals())
    (alone,) = [look for look in needs_a_look(unexplained) if "Water test FTT" in look.head]
    assert alone.cost == told.cost


def test_a_test_below_its_limit_by_what_was_built() -> None:
    """Where most of the rise of its fails is mix the line says so, and not where it is process."""
    mix = MixShift("water", ALL_FAILS, 1, 32, 400, 4.0, 8.0, 3.0, 1.0, "models", 1.0, 1.0)
    for shares, told in ((mix, True), (replace(mix, mix=1.0, process=3.0), False)):
        facts = replace(loud_shift(), signals=Signals(mixes=(shares,)))
        (look,) = [one for one in needs_a_look(facts) if "Water test FTT" in one.head]
        assert look.start.endswith("; mostly a mix of models.") is told
        assert not [one for one in needs_a_look(facts) if "mix, not process" in one.head]


def test_quiet_shift_says_so() -> None:
    """Where no rule speaks there is one quiet line, true by the same rules."""
    (look,) = needs_a_look(quiet_shift())
    assert (look.kind, look.head) == ("quiet", "Nothing needs a look")
    assert look.start == "Every station was heard from; every figure is in its usual range."


def test_quiet_without_history_claims_nothing() -> None:
    """Without usual ranges the quiet line does not speak of them."""
    young = tuple(series(test, wave(0.95, 0.01, 0.95), limits=False) for test in TITLES)
    (look,) = needs_a_look(replace(quiet_shift(), tests=young))
    assert "too few shifts yet to say what is usual" in look.start


def test_empty_shift() -> None:
    """A shift without a unit is neither good nor bad."""
    (look,) = needs_a_look(empty_shift())
    assert (look.kind, look.head) == ("quiet", "No unit was tested in this shift")


def test_old_escapes_stay_in_sight() -> None:
    """An escape of an earlier shift is told until it is released."""
    old = Escape(vin(7), "water", "Water test", "no_record", "signed_off", CLOCK, False)
    (look,) = needs_a_look(replace(quiet_shift(), escapes=(old,)))
    assert look.head == "1 escape still open from before"
    assert look.start == f"{vin(7)}: no record in the water test at signed off."


def test_missing_test_is_looked_at() -> None:
    """A required test without a unit, while others ran, comes before every figure."""
    facts = quiet_shift()
    tests = (*facts.tests[:2], empty_shift().tests[2])
    (look,) = needs_a_look(replace(facts, tests=tests))
    assert look.head == "No unit was tested in the squeak and rattle track"


def test_running_shift_is_not_silent() -> None:
    """While a shift runs no station is late."""
    running = replace(header(heard=False), data_clock=CLOCK.replace(hour=9))
    assert all(look.kind != "data" for look in needs_a_look(replace(quiet_shift(), header=running)))


def test_late_reports_are_told() -> None:
    """A report that came late, or that somebody has not got, is told by the next page."""
    late = (LateReport(DAY, "early", 16.2, 0, 1), LateReport(DAY, "late", None, 2, 0))
    (look,) = needs_a_look(replace(quiet_shift(), late=late))
    assert look.head == "2 earlier reports came late or are missing"
    words = "Fri 18 Sep 2026 early: 16 h late and 1 recipient refused"
    assert look.start == f"{words}; Fri 18 Sep 2026 late: 2 wait for it."


def test_too_good_a_test_is_asked_about() -> None:
    """A test above its limit is asked whether it still sees."""
    facts = quiet_shift()
    tests = (series("water", wave(0.95, 0.002, 0.999)), *facts.tests[:1])
    (look,) = needs_a_look(replace(facts, tests=tests))
    assert look.start == "Too good: check its conditions and its reference units."
