"""What the facts compute, as rows of the table answer."""

from __future__ import annotations

import math
from dataclasses import astuple, replace

import pytest
from made_up_shift import empty_shift, loud_shift, quiet_shift
from made_up_signals import bay_signal, changed, mix_shift, ranked

from eol.facts.answers import QUESTIONS, shift_answers
from eol.facts.shift import ShiftFacts
from eol.facts.signals import Signals

ALL = Signals(
    changed=(changed("WL-SEAM", 19), changed("WL-TAIL", 3, kind="new", usual=None)),
    zones=(changed("RR-QTR", 19, test=""),),
    bays=(bay_signal("W1 B", "fewer"),),
    mixes=(mix_shift("WL-DRAIN"),),
    window=(ranked("WL-SEAM", 30, 1, 2), replace(ranked("WL-TAIL", 0, 2, 2), shrunk=None)),
)


@pytest.mark.parametrize("facts", [loud_shift(), quiet_shift(), empty_shift()])
def test_no_answer_holds_a_nan(facts: ShiftFacts) -> None:
    """Every answer is to a known question, and no number in it is NaN or infinite."""
    rows = shift_answers(replace(facts, signals=ALL))
    assert {row.question for row in rows} <= QUESTIONS
    numbers = [cell for row in rows for cell in astuple(row) if isinstance(cell, float)]
    assert all(math.isfinite(number) for number in numbers)


def test_every_signal_is_an_answer() -> None:
    """Codes, zones, bays, mixes and ranks have their rows beside the usual ranges."""
    rows = shift_answers(replace(loud_shift(), signals=ALL))
    asked = {"usual_range", "changed_code", "changed_zone", "pareto_window", "bay", "mix"}
    assert asked <= {row.question for row in rows} <= QUESTIONS
    told = {(row.question, row.name, row.code or row.zone or row.subject) for row in rows}
    assert ("changed_code", "more", "WL-SEAM") in told
    assert ("changed_code", "new", "WL-TAIL") in told
    assert ("changed_zone", "more", "RR-QTR") in told
    assert ("bay", "too_few", "W1 B") in told
    assert ("pareto_window", "rank", "WL-SEAM") in told
    assert ("mix", "process", "WL-DRAIN") in told


def test_view_joins_one_row_a_code() -> None:
    """`pareto_window` joins per_100_at_risk and rank: one row of each for a code."""
    rows = shift_answers(replace(loud_shift(), signals=ALL))
    joined = [(r.name, r.test, r.code) for r in rows if r.question == "pareto_window"]
    assert len(joined) == len(set(joined))


def test_usual_range_says_where_the_figure_lies() -> None:
    """The value beside its usual range is inside, below or above in words."""
    rows = shift_answers(loud_shift())
    words = {row.name: row.words for row in rows if row.question == "usual_range" and not row.code}
    assert (words["line_ftt"], words["dphu"], words["void_tests"]) == ("below", "above", "above")
