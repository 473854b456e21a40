from pathlib import Path

import polars as pl
import pytest

from eol.demo import dirt
from eol.demo.plan import HOUR, MINUTE, shift_of
from eol.demo.record import Record

FOLDER = "dirt"


def test_clock_of_e1_is_slow_for_two_days(record: Record) -> None:
    """S9: eleven minutes, on days 3 and 4 alone, and at no other bench."""
    for run in record.world.runs:
        late = run.started - dirt.as_sent(run, run.started)
        slow = run.station in ("E1-1", "E1-2") and (
            shift_of(3, "day").starts <= run.started < shift_of(4, "night").ends
        )
        assert late == (11 * MINUTE if slow else 0)


def test_one_file_was_sent_twice(committed: Path) -> None:
    """S9: the same bytes under two names."""
    one, other = (committed / FOLDER / name for name in dirt.SENT_TWICE)
    assert one.read_bytes() == other.read_bytes()


def test_one_file_came_again_one_hour_on(committed: Path) -> None:
    """S9: its rows stand in the week's file too, exactly one hour earlier."""
    again = pl.read_csv(committed / FOLDER / dirt.ONE_HOUR_ON, try_parse_dates=True)
    week = pl.read_parquet(committed / "electrical_20260926_0300.parquet")
    hour = pl.duration(hours=1)
    key = (pl.col("started_at") - hour).dt.replace_time_zone("Europe/Berlin")
    moved = again.select("vin", "station", started_at=key.dt.convert_time_zone("UTC"))
    matched = moved.join(week, on=["vin", "station", "started_at"], how="semi")
    assert len(matched) == len(moved) > 90


def test_odd_rows_stand_in_no_other_file(committed: Path) -> None:
    """S9: what came late, by hand, renamed or with a tail is not in the weekly files."""
    late = pl.read_csv(committed / FOLDER / dirt.LATE)
    week = pl.read_parquet(committed / "water_20260919_0300.parquet")
    assert late.join(week, on="run_ref").is_empty()
    assert set(late["bay"]) == {"C"}
    assert late["ended_at"].min() >= "2026-09-17 01:10:00"  # type: ignore[operator]


def test_header_was_renamed(committed: Path) -> None:
    """S9: two columns of the track have other names on day 8."""
    header = (committed / FOLDER / dirt.RENAMED).read_text("utf-8").splitlines()[0]
    assert {"finding", "element"} <= set(header.split(","))


def test_file_ends_in_nul_bytes(committed: Path) -> None:
    """S9: a tail of them after whole rows."""
    content = (committed / FOLDER / dirt.NUL_TAIL).read_bytes()
    assert content.endswith(b"\n" + b"\0" * dirt.NUL_BYTES)


def test_one_vin_has_two_signs_swapped(record: Record) -> None:
    """S9: it is no VIN of the schedule, and its unit has no run of that test."""
    right, wrong = record.dirt.mistyped.vin, record.dirt.mistyped_as
    assert sorted(right) == sorted(wrong)
    assert sum(one != other for one, other in zip(right, wrong, strict=True)) == 2
    assert wrong not in {unit.vin for unit in record.world.units}
    assert record.ledger.standing(record.dirt.mistyped, "alignment").first is None


@pytest.mark.parametrize("name", [dirt.BY_HAND, dirt.LATE])
def test_odd_files_tell_plant_local_times(committed: Path, name: str) -> None:
    """No offset, no zone."""
    started = pl.read_csv(committed / FOLDER / name)["started_at"]
    assert started.str.contains(r"^2026-09-\d\d \d\d:\d\d:\d\d$").all()


def test_doubles_are_an_hour_on(record: Record) -> None:
    """They count nowhere."""
    assert all(run.void == "suspect_double" for run in record.dirt.doubles)
    starts = {(run.vin, run.started) for run in record.world.runs}
    assert all((run.vin, run.started - HOUR) in starts for run in record.dirt.doubles)
