"""A bay: its test, its blind time, and shifts as edges."""

from __future__ import annotations

from dataclasses import replace

import pytest

from eol.demo.build import DemoResult
from eol.errors import UsageError
from eol.facts.contain import suspect_list
from eol.facts.contain_bay import bay_test
from eol.facts.contain_question import ContainQuestion
from eol.store.connect import open_copy

BAY = ContainQuestion("WL-SEAM", bay="W/B", since="2026-09-07/day", until="2026-09-10/night")


def test_shifts_are_edges(demo_plant: DemoResult) -> None:
    """S2: the days 6 to 9; the share is that of the neighbours, the sensitivity that given."""
    with open_copy(demo_plant.folder) as copy:
        found = suspect_list(copy, replace(BAY, sensitivity=0.35))
        assert bay_test(copy, BAY) == "water"
    (edge,) = found.edges
    assert edge.first_reason == "first shift asked for, 2026-09-07/day"
    assert 950 < edge.units < 1100
    share = edge.risk_share or 0
    left = share * 0.65 / (1 - share * 0.35)
    risks = {unit.residual_risk for unit in found.units if unit.residual_risk is not None}
    assert max(risks) == pytest.approx(left)


def test_a_bay_that_saw(demo_plant: DemoResult) -> None:
    """No failed check and no shift named: nothing bounds the list."""
    with (
        open_copy(demo_plant.folder) as copy,
        pytest.raises(UsageError, match="no reference check"),
    ):
        suspect_list(copy, ContainQuestion("WL-SEAM", bay="W/A"))
