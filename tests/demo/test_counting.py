import pytest

from eol.demo.counting import by_shift, ended_in, first_runs_between, has, seq_range, share
from eol.demo.record import Record


@pytest.mark.slow
def test_first_runs_between_days(record: Record) -> None:
    """Both ends are in, and no unit comes twice."""
    runs = first_runs_between(record, "water", (6, 9))
    assert {ended_in(run).day for run in runs} == {6, 7, 8, 9}
    assert len({run.vin for run in runs}) == len(runs)


def test_share_counts_units_and_found(record: Record) -> None:
    """Of all runs, and of those that found the code."""
    runs = first_runs_between(record, "water", (1, 20))
    found = [run for run in runs if has(run, "WL-DOOR")]
    counts = share(runs, found, lambda run: run.bay == "A")
    assert counts["units"] == sum(run.bay == "A" for run in runs)
    assert 0 < counts["defects"] < len(found)


def test_by_shift_is_in_order(record: Record) -> None:
    """Named as a report is asked for."""
    runs = first_runs_between(record, "water", (1, 2))
    assert list(by_shift(runs, ended_in)) == [
        "2026-08-31/day",
        "2026-08-31/night",
        "2026-09-01/day",
        "2026-09-01/night",
    ]


def test_seq_range(record: Record) -> None:
    """First and last."""
    assert seq_range(record.world.units[5:9]) == [100_006, 100_009]
