"""What is said of a fleet is what its views say."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import polars as pl
import pytest

from eol.errors import UsageError
from eol.fleet.ask import Fleet, ask_fleet
from eol.fleet.facts import FleetFacts, fleet_facts, fleet_rising


@pytest.fixture(scope="module")
def facts(lake_folder: Path) -> FleetFacts:
    """The facts of the three plants over all their days."""
    return fleet_facts(Fleet(lake_folder), first=date(2020, 1, 1), last=date(2027, 1, 1))


@pytest.mark.slow
def test_tests_are_the_sums_of_the_shifts(facts: FleetFacts, lake_folder: Path) -> None:
    """Units, first passes and defects of a plant's test are those of its shifts together."""
    shifts = ask_fleet(lake_folder, "shifts_of_plants")
    summed = shifts.group_by("plant", "test").agg(pl.col("tested", "passed_first", "defects").sum())
    rows = summed.filter(pl.col("tested") > 0).sort("plant", "test").rows()
    names = ("plant", "test", "tested", "passed_first", "defects")
    assert [tuple(row[name] for name in names) for row in facts.tests] == rows


def test_interval_is_the_one_of_the_shift_view(lake_folder: Path) -> None:
    """Over the days of one shift alone, the question gives the view's own interval (rule 16)."""
    rows = ask_fleet(lake_folder, "shifts_of_plants")
    day = rows.group_by("plant", "test", "production_date").agg(pl.len(), pl.col("tested").sum())
    alone = day.filter(pl.col("len") == 1, pl.col("tested") > 1)
    plant, test, on = alone.sort("plant", "test", "production_date").row(0)[:3]
    shift = rows.filter(plant=plant, test=test, production_date=on).to_dicts()[0]
    span = ask_fleet(Fleet(lake_folder, plants=(plant,)), "tests_of_plants", first=on, last=on)
    whole = span.filter(test=test).to_dicts()[0]
    for name in ("ftt", "low", "high", "dphu", "dphu_low", "dphu_high"):
        assert whole[name] == pytest.approx(shift[name], abs=1e-12)


def test_pareto_adds_the_plants_up(facts: FleetFacts) -> None:
    """A root code's defects over all plants are the sum of the plants'; ranks begin at 1, shares end at 1."""
    by_plant = pl.DataFrame(facts.roots).group_by("root_code").agg(pl.col("defects").sum())
    assert {row["root_code"]: row["defects"] for row in facts.pareto} == dict(by_plant.rows())
    assert facts.pareto[0]["rank"] == 1
    assert facts.pareto[-1]["cumulative_share"] == 1


def test_clocks_of_the_plants(facts: FleetFacts) -> None:
    """Each plant has its own data clock."""
    assert [plant for plant, _ in facts.clocks] == ["north", "south", "west"]


def test_span_without_a_day(lake_folder: Path) -> None:
    """A span of no day is told."""
    with pytest.raises(UsageError, match="at least one day"):
        fleet_rising(Fleet(lake_folder), recent_days=0)
