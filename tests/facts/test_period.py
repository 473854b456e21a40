"""A day and a week as one page."""

from __future__ import annotations

from datetime import date

import pytest

from eol.demo.build import DemoResult
from eol.errors import UsageError
from eol.facts.period import Period, named_day, named_week, period_facts
from eol.facts.shift import ShiftFacts, shift_facts
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy

MONDAY = date(2026, 9, 14)


def of_shifts(folder: PlantFolder, day: date, *names: str) -> list[ShiftFacts]:
    """Return the facts of some shifts of a day."""
    with open_copy(folder) as copy:
        return [shift_facts(copy, production_date=day, shift=name) for name in names]


def figures(facts: ShiftFacts) -> list[list[float]]:
    """Return the headline figures with their intervals; what is unknown is no number."""
    strip = facts.strip
    every = [strip.line_ftt, strip.rty, strip.dphu, strip.void_tests]
    ends = [[each.value, each.part, each.n, each.low, each.high, each.worst] for each in every]
    return [[float("nan") if end is None else float(end) for end in each] for each in ends]


def of_period(folder: PlantFolder, period: Period) -> ShiftFacts:
    """Return the facts of a day or week."""
    with open_copy(folder) as copy:
        return period_facts(copy, period)


@pytest.fixture(scope="module")
def day(demo_plant: DemoResult) -> ShiftFacts:
    """The demo's Monday with the blind bay."""
    return of_period(demo_plant.folder, named_day("2026-09-14"))


@pytest.fixture(scope="module")
def shifts(demo_plant: DemoResult) -> list[ShiftFacts]:
    """The two shifts of the same day."""
    return of_shifts(demo_plant.folder, MONDAY, "day", "night")


@pytest.mark.slow
def test_day_with_one_shift_is_that_shift(small_plant: PlantFolder) -> None:
    """Where a day has one shift with runs, its figures are the shift's."""
    (shift,) = of_shifts(small_plant, date(2026, 9, 8), "E")
    whole = of_period(small_plant, named_day("2026-09-08"))
    for one, other in zip(figures(whole), figures(shift), strict=True):
        assert one == pytest.approx(other, nan_ok=True)
    assert (whole.zones, whole.bays) == (shift.zones, shift.bays)
    assert [row.defects for row in whole.pareto.rows] == [row.defects for row in shift.pareto.rows]
    assert (whole.units_with_code, whole.safety_units) == (
        shift.units_with_code,
        shift.safety_units,
    )


@pytest.mark.slow
def test_day_adds_its_shifts_up(day: ShiftFacts, shifts: list[ShiftFacts]) -> None:
    """Units, defects and void runs of a day are those of its shifts together."""
    assert day.strip.built == sum(each.strip.built for each in shifts)
    assert day.strip.line_ftt.part == sum(each.strip.line_ftt.part or 0 for each in shifts)
    assert day.strip.dphu.part == sum(each.strip.dphu.part or 0 for each in shifts)
    assert day.strip.void_tests.value == sum(each.strip.void_tests.value or 0 for each in shifts)
    assert day.tested == sum(each.tested for each in shifts)
    assert day.pareto.defects == sum(each.pareto.defects for each in shifts)
    assert len(day.units_with_code) == sum(len(each.units_with_code) for each in shifts)


@pytest.mark.slow
def test_day_is_held_against_days(day: ShiftFacts) -> None:
    """Its history has one point a day, the present one last; ten days make no usual range."""
    points = day.tests[0].points
    assert points[-1].production_date == MONDAY
    assert len({point.production_date for point in points}) == len(points) == 11
    assert all(point.usual is None for point in points)


@pytest.mark.slow
def test_header_tells_the_day(day: ShiftFacts, shifts: list[ShiftFacts]) -> None:
    """A day begins with its first shift and ends with its last; two crews have no name in common."""
    header = day.header
    assert (header.kind, header.production_date, header.last_date) == ("day", MONDAY, MONDAY)
    assert header.starts_at == shifts[0].header.starts_at
    assert header.ends_at == shifts[1].header.ends_at
    assert header.shift is None


@pytest.mark.slow
def test_what_waits_is_told_once(day: ShiftFacts, shifts: list[ShiftFacts]) -> None:
    """Escapes and safety-related findings are those known after the day's last shift."""
    assert [unit.vin for unit in day.escapes] == [unit.vin for unit in shifts[1].escapes]
    assert {unit.vin for unit in day.safety_units} == {unit.vin for unit in shifts[1].safety_units}


@pytest.mark.slow
def test_week_adds_its_days_up(demo_plant: DemoResult) -> None:
    """A week's units are those of its days."""
    days = [of_period(demo_plant.folder, named_day(f"2026-09-{at}")) for at in range(14, 19)]
    week = of_period(demo_plant.folder, named_week("2026-W38"))
    assert week.strip.built == sum(each.strip.built for each in days)
    assert week.pareto.defects == sum(each.pareto.defects for each in days)
    assert week.header.last_date == date(2026, 9, 20)
    assert [point.production_date for point in week.tests[0].points][-1] == MONDAY


def test_names_of_days_and_weeks() -> None:
    """Days and weeks are named as ISO 8601 writes them; a week of one year may begin in another."""
    assert named_day("2026-09-14") == Period("day", MONDAY, MONDAY)
    assert named_week("2026-W38") == Period("week", MONDAY, date(2026, 9, 20))
    assert named_week("2026-W01").first == date(2025, 12, 29)


@pytest.mark.parametrize("text", ["2026-W54", "W38", "2026", "", "2026-W"])
def test_no_such_week(text: str) -> None:
    """What names no week is a wrong call."""
    with pytest.raises(UsageError, match="names no week"):
        named_week(text)


def test_day_without_a_shift(small_plant: PlantFolder) -> None:
    """A day outside the calendar has no page."""
    with pytest.raises(UsageError, match="no shift in the day from 2020-01-01"):
        of_period(small_plant, named_day("2020-01-01"))
