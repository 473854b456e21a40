"""Factors within strata: edges, the decoy, second opinions."""

import numpy as np
import pytest
from statsmodels.stats.contingency_tables import StratifiedTable

from eol.statistics.mantel_haenszel import (
    StratifiedOdds,
    level_tables,
    mantel_haenszel,
    screen_levels,
)


def test_agrees_with_a_second_opinion():
    """Statsmodels gives the same odds ratio, interval and statistic."""
    tables = np.random.default_rng(3).integers(1, 60, size=(9, 2, 2))
    other = StratifiedTable(np.moveaxis(tables, 0, -1).astype(float))
    found = mantel_haenszel(tables)
    assert found.odds_ratio == pytest.approx(other.oddsratio_pooled)
    assert (found.low, found.high) == pytest.approx(other.oddsratio_pooled_confint(), rel=1e-6)
    assert found.chi2 == pytest.approx(other.test_null_odds().statistic)


def test_a_lot_that_came_on_the_bad_nights_is_no_cause():
    """Ten percent defects on the nights, all with the lot; one percent else: crude yes, within no."""
    nights, days = [[40, 360], [40, 360]], [[1, 99], [9, 891]]
    crude = mantel_haenszel([np.add(nights, days)])
    within = mantel_haenszel([nights, days])
    assert crude.p < 0.001
    assert within.p > 0.9


@pytest.mark.parametrize("tables", [[], [[[0, 5], [0, 9]]], [[[3, 4], [0, 0]]], [[[0, 0], [0, 0]]]])
def test_strata_that_cannot_tell(tables):
    """No table, no defect, all units with the factor: p 1 and no odds ratio."""
    assert mantel_haenszel(tables) == StratifiedOdds(None, None, None, 0.0, 1.0, 0.0, 1.0, 0)


def test_empty_cells_give_no_nan():
    """No defect among the factor's units: odds ratio 0; all defects among them: none."""
    assert mantel_haenszel([[[0, 50], [5, 45]]]).odds_ratio == 0
    every = mantel_haenszel([[[5, 45], [0, 50]]])
    assert every.odds_ratio is None
    assert every.p < 0.05


def test_screen_gives_the_p_value_of_each_level():
    """Many levels at once say what one by one would say."""
    rng = np.random.default_rng(4)
    tables = level_tables(rng.random(500) < 0.1, rng.integers(0, 5, 500), rng.integers(0, 4, 500))
    assert screen_levels(tables) == pytest.approx([mantel_haenszel(t).p for t in tables], rel=1e-9)


def test_level_tables_of_no_unit():
    """An attribute nobody has yet."""
    assert screen_levels(level_tables([], [], [])) == ()


def test_level_that_every_unit_has():
    """An attribute that every unit has explains nothing."""
    assert screen_levels(level_tables([1, 0, 0, 1], [0, 0, 0, 0], [0, 0, 1, 1])) == (1.0,)


def test_wrong_shapes_are_refused():
    """Tables, not single counts; one row a unit."""
    with pytest.raises(ValueError, match="strata, 2, 2"):
        mantel_haenszel([[1, 2], [3, 4]])
    with pytest.raises(ValueError, match="one defect, level and stratum"):
        level_tables([1], [0, 1], [0])
