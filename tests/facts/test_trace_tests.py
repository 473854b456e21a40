"""One factor against a defect: crude, within strata, many values, numbers and edges."""

from __future__ import annotations

import numpy as np
import pytest
import traced

from eol.facts.trace_tests import Comparison, few_levels, opened, range_words, tables_of, telling
from eol.statistics.mantel_haenszel import level_tables
from eol.statistics.ranges import ValueRange

RNG = np.random.default_rng(5)
SHIFT = np.repeat(np.arange(8), 100)


def test_a_cause_within_shifts() -> None:
    """Two robots share each shift; one leaks: told within shift and model, at its value."""
    robot = np.where(RNG.random(800) < 0.5, "R07", "R08")
    made = traced.units(
        RNG.random(800) < np.where(robot == "R07", 0.1, 0.005), shift=SHIFT.tolist()
    )
    found = Comparison(made).test(traced.texts(robot.tolist()))
    assert found is not None
    assert (found.level, found.within) == ("R07", "shift and model")
    assert (found.within_p or 1) < 1e-4
    assert found.factor_p == found.within_p


def test_time_alone_is_silent_within() -> None:
    """A lot used in the bad shifts alone, and in half of their units: plain crudely, nothing within."""
    lot = np.where((SHIFT < 2) & (RNG.random(800) < 0.5), "L", "M")
    made = traced.units(RNG.random(800) < np.where(SHIFT < 2, 0.2, 0.01), shift=SHIFT.tolist())
    found = Comparison(made).test(traced.texts(lot.tolist()))
    assert found is not None
    assert found.crude_p < 0.01
    assert (found.within_p or 0) > 0.05


def test_what_goes_with_the_shift_cannot_be_told() -> None:
    """A crew works whole shifts: nothing to compare within."""
    crew = ["amber" if shift < 2 else "violet" for shift in SHIFT]
    made = traced.units(RNG.random(800) < np.where(SHIFT < 2, 0.2, 0.01), shift=SHIFT.tolist())
    found = Comparison(made).test(traced.texts(crew))
    assert found is not None
    assert (found.within_p, found.within, found.factor_p) == (None, None, None)


def test_what_goes_with_the_model_is_compared_within_the_shift() -> None:
    """A program for each model: shift alone is held apart."""
    model = RNG.integers(0, 2, 800)
    made = traced.units(
        RNG.random(800) < np.where(model == 1, 0.1, 0.01),
        shift=SHIFT.tolist(),
        model=model.tolist(),
    )
    found = Comparison(made).test(traced.texts([f"P{one}" for one in model]))
    assert found is not None
    assert (found.level, found.within) == ("P1", "shift")
    assert (found.within_p or 1) < 0.01


def test_a_number_is_told_by_its_range() -> None:
    """Thin beads leak: a range, open below, and the area under the curve."""
    bead = RNG.normal(6, 0.5, 800)
    made = traced.units(RNG.random(800) < np.where(bead < 5.4, 0.3, 0.01), shift=SHIFT.tolist())
    found = Comparison(made).test(traced.numbers(bead))
    assert found is not None
    assert found.level.startswith("up to 5.")
    assert (found.within_p or 1) < 1e-3
    assert (found.auc or 1) < 0.3


def test_a_quiet_number_shows_a_half() -> None:
    """Where no range speaks, the half of the units on the defects' side is shown, not a fluke."""
    made = traced.units(RNG.random(800) < 0.03, shift=SHIFT.tolist())
    found = Comparison(made).test(traced.numbers(RNG.normal(6, 0.5, 800)))
    assert found is not None
    assert (found.within_p or 0) > 0.05
    assert 350 < found.has.sum() < 450


@pytest.mark.parametrize("values", [["A"] * 4, [None] * 4, ["A", None, None, None]])
def test_one_value_tells_nothing(values: list[str | None]) -> None:
    """An attribute that every unit has, or none."""
    assert Comparison(traced.units([1, 0, 0, 1])).test(traced.texts(values)) is None
    assert Comparison(traced.units([1, 0, 0, 1])).test(traced.numbers([5.0] * 4)) is None


def test_many_values_are_cut_to_those_with_defects() -> None:
    """Serial numbers: the values with the most defects, the rest as one."""
    column = traced.texts([f"S{n:03d}" for n in range(200)])
    codes, labels = few_levels(column, np.arange(200) >= 198)
    assert labels[:2] == ["S198", "S199"]
    assert labels[-1] == "other values"
    assert int((codes == 40).sum()) == 160


def test_telling_strata_have_both_kinds() -> None:
    """A stratum without a defect, or with nothing else, tells nothing."""
    held = telling("shift", np.array([0, 0, 1, 1, 2, 2]), np.array([0, 0, 1, 0, 1, 1], dtype=bool))
    assert held.units.tolist() == [2, 3]
    assert held.stratum.tolist() == [0, 0]


def test_tables_count_as_the_statistics_do() -> None:
    """A second opinion: the tables of `level_tables`."""
    has, defect = RNG.random(50) < 0.5, RNG.random(50) < 0.3
    stratum = RNG.integers(0, 3, 50)
    told = level_tables(defect, has.astype(int), stratum)[1]
    assert tables_of(has, defect, stratum).tolist() == told.tolist()


def test_range_words() -> None:
    """Both ends, one, or none."""
    made = [(None, 4.8), (6.1, None), (4.2, 4.8), (None, None)]
    told = [range_words(ValueRange(low, high, 0, 0, 0.0, 1.0), "mm") for low, high in made]
    assert told == ["up to 4.8 mm", "from 6.1 mm", "4.2 to 4.8 mm", "any value"]


def test_an_end_is_opened_where_little_speaks_against_it() -> None:
    """One unit below the range without the defect does not make an end; many do."""
    values = np.concatenate([[4.0], np.linspace(4.1, 4.5, 20), np.linspace(5, 7, 200)])
    defect = np.arange(221) % 2 * (values > 4.05) * (values < 4.51) == 1
    found = ValueRange(4.1, 4.5, 10, 20, 1.0, 0.001)
    assert opened(found, values, defect).low is None
    many = np.concatenate([np.full(100, 4.0), values])
    flags = np.concatenate([np.zeros(100, dtype=bool), defect])
    assert opened(found, many, flags).low == 4.1
