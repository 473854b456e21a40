"""What may be named: corrected for all factors; what goes together is one cause."""

from __future__ import annotations

import numpy as np
import traced

from eol.facts.trace_causes import Cause, Factor, causes, factor_words, judged
from eol.facts.trace_columns import Column
from eol.facts.trace_tests import Comparison
from eol.facts.trace_units import TraceUnits

SHIFT = np.repeat(np.arange(8), 100)


def judge(made: TraceUnits, columns: list[Column]) -> tuple[tuple[Factor, ...], tuple[Cause, ...]]:
    """Test, correct and join factors."""
    comparison = Comparison(made)
    tested = [one for one in map(comparison.test, columns) if one is not None]
    factors = judged(made, tested)
    return factors, causes(made, tested, factors)


def test_two_names_of_one_thing_are_one_cause() -> None:
    """Robot, its station and the bead it lays thin go together; colour is not named."""
    rng = np.random.default_rng(6)
    robot = rng.random(800) < 0.5
    bead = rng.normal(6, 0.1, 800) - robot * np.where(SHIFT < 4, 1.5, 0)
    defect = (bead < 5.5) & (rng.random(800) < 0.3)
    columns = [
        traced.texts(["R07" if one else "R08" for one in robot]),
        traced.texts(["C7" if one else "C8" for one in robot], name="station"),
        traced.numbers(bead),
        traced.texts(rng.choice(["slate", "moss"], 800).tolist(), name="colour"),
    ]
    factors, found = judge(traced.units(defect.tolist(), shift=SHIFT.tolist()), columns)
    (cause,) = found
    assert {one.name for one in cause.factors} == {"robot", "station", "bead"}
    assert cause.lead.name == "bead"
    assert factors[3].verdict != "named"


def test_two_causes_stay_two() -> None:
    """A robot and a bay that each make defects: what one leaves, the other tells."""
    rng = np.random.default_rng(7)
    robot, bay = rng.random(1600) < 0.5, rng.random(1600) < 0.5
    defect = rng.random(1600) < np.select([robot & bay, robot | bay], [0.4, 0.2], 0.005)
    columns = [
        traced.texts(["R7" if one else "R8" for one in robot]),
        traced.texts(["A" if one else "B" for one in bay], name="bay", axis="test"),
    ]
    _, found = judge(traced.units(defect.tolist(), shift=np.repeat(SHIFT, 2).tolist()), columns)
    assert [len(one.factors) for one in found] == [1, 1]


def test_chance_is_not_named() -> None:
    """Two hundred factors without any effect, twenty times over: at most one trace names one."""
    rng = np.random.default_rng(8)
    named = 0
    for _ in range(5):
        made = traced.units((rng.random(800) < 0.04).tolist(), shift=SHIFT.tolist())
        columns = [
            traced.texts(rng.choice(["A", "B", "C"], 800).tolist(), name=f"a{n}") for n in range(40)
        ]
        named += bool(judge(made, columns)[1])
    assert named <= 1


def test_words() -> None:
    """11 of 14 had it, 15 % of the rest."""
    told = factor_words("sealer robot", "R07", (11, 14, 150, 1000))
    assert told == "sealer robot R07: 11 of 14 had it, 15 % of the rest"
    assert factor_words("lot", "L", (2, 2, 1, 900)).endswith("0.11 % of the rest")
    assert factor_words("lot", "L", (2, 2, 0, 0)).endswith("there is no rest")


def test_fewer_is_told_as_fewer() -> None:
    """A bay that finds less than the others: odds below 1, excess below 0."""
    rng = np.random.default_rng(9)
    bay = rng.choice(["A", "B", "C"], 1600)
    defect = rng.random(1600) < np.where(bay == "B", 0.01, 0.15)
    made = traced.units(defect.tolist(), shift=np.repeat(SHIFT, 2).tolist())
    (factor,), (cause,) = judge(made, [traced.texts(bay.tolist(), name="bay")])
    assert (factor.level, factor.more) == ("B", False)
    assert (factor.odds_ratio or 1) < 0.3
    assert (factor.explained or 0) < 0
    assert cause.lead is factor
