"""A condition that jumps holds its file: its unit of measure has changed, a person must say."""

from __future__ import annotations

from datetime import timedelta

import builders as b
import plants
import polars as pl
import pytest

from eol.load.conditions import FEWEST_READINGS, jumps, usual_conditions
from eol.load.ingest import ingest
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy

USUAL = {("water", "pressure_kpa"): 250.0}


def readings(*values: float | None, name: str = "pressure_kpa") -> dict[str, pl.DataFrame]:
    """Readings of one condition of the water test."""
    frame = pl.DataFrame({"value": values}, schema={"value": pl.Float64})
    return {"reading": frame.with_columns(test=pl.lit("water"), name=pl.lit(name))}


@pytest.mark.parametrize("value", [50.0, 250.0, 1250.0])
def test_within_bounds(value: float) -> None:
    """From a fifth to five times the usual median nothing is said."""
    assert list(jumps(readings(*[value] * 9), USUAL)) == []


@pytest.mark.parametrize("value", [2.5, 49.9, 1250.1])
def test_beyond_bounds(value: float) -> None:
    """Beyond them the sentence names the condition, both medians and what to ask."""
    [said] = jumps(readings(*[value] * 9), USUAL)
    assert said == (
        f"the median of pressure_kpa is {value:g}, over the last 20 shifts it was 250:"
        " has its unit of measure changed?"
    )


def test_few_readings_say_nothing() -> None:
    """A handful of odd readings are readings, not another unit of measure."""
    few = FEWEST_READINGS - 1
    assert list(jumps(readings(*[2.5] * few, *[None] * 9), USUAL)) == []
    assert len(list(jumps(readings(*[2.5] * (few + 1)), USUAL))) == 1


def test_what_was_never_measured_is_free() -> None:
    """A condition without a past, and a file without readings, cannot jump."""
    assert list(jumps(readings(*[2.5] * 9, name="wind"), USUAL)) == []
    assert list(jumps({"run": pl.DataFrame()}, USUAL)) == []


def test_usual_is_the_median_of_the_last_shifts(
    small_plant: PlantFolder, folder: PlantFolder
) -> None:
    """Of the conditions of the runs that are there; an empty store knows none."""
    with open_copy(small_plant) as copy:
        assert usual_conditions(copy) == USUAL
    with open_copy(folder) as copy:
        assert usual_conditions(copy) == {}


def test_jumped_file_is_held_until_a_person_accepts_it(folder: PlantFolder) -> None:
    """A file in bar instead of kPa changes nothing; --accept loads it as it is."""
    plants.load(folder, b.file("water", [r for n in range(6) for r in b.run(f"U{n}", f"08:1{n}")]))
    in_bar = [r for n in range(6) for r in b.run(f"U{n}", f"12:1{n}", pressure_kpa=2.5)]
    made_at = b.MADE_AT + timedelta(hours=1)
    [path] = plants.write(folder, b.file("water", in_bar, made_at=made_at))
    held = ingest(folder, [path])
    assert ([file.state for file in held.files], held.needs_a_look) == (["held"], True)
    assert "has its unit of measure changed?" in held.files[0].message
    assert plants.count(folder, "run") == 6
    assert [file.state for file in ingest(folder, [path], accept=True).files] == ["loaded"]
    assert plants.count(folder, "run") == 12
