"""The line that says where to start."""

from __future__ import annotations

import numpy as np
import traced

from eol.facts.trace_causes import causes, judged
from eol.facts.trace_order import order_of
from eol.facts.trace_result import FoundAt
from eol.facts.trace_start import start_line
from eol.facts.trace_tests import Comparison

SHIFT = np.repeat(np.arange(8), 100)


def line(kind: str = "attribute") -> str | None:
    """The line of eight shifts in the third of which one robot's units fail."""
    rng = np.random.default_rng(6)
    robot = rng.random(800) < 0.5
    defect = robot & (SHIFT == 2) & (rng.random(800) < 0.5)
    made = traced.units(defect.tolist(), shift=SHIFT.tolist())
    column = traced.texts(["R07" if one else "R08" for one in robot])
    object.__setattr__(column, "kind", kind)
    tested = [one for one in [Comparison(made).test(column)] if one is not None]
    named = causes(made, tested, judged(made, tested))
    orders = (order_of(made, "build"),)
    return start_line(made, named, tested, orders, (FoundAt("rear", 10, 10, 0.0),))


def test_counts_are_of_the_shifts_in_which_it_crowds() -> None:
    """The value, the step where all lie, and how many of how many in that shift."""
    told = line()
    assert told is not None
    assert told.startswith("robot R07, on rear: ")
    assert " against 0 of " in told
    assert told.endswith(" in one shift")


def test_nothing_named_is_no_line() -> None:
    """Without a cause there is no line, and an evaluator is never in one (rule 18)."""
    made = traced.units([1, 0, 0, 1])
    assert start_line(made, (), (), (), ()) is None
    assert line("evaluator") is None
