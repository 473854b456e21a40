from collections import defaultdict
from itertools import pairwise

from eol.demo.catalogue import TESTS
from eol.demo.plan import shift_at
from eol.demo.record import Record
from eol.demo.world import Run


def scheduled(record: Record) -> list[Run]:
    """Runs of the plant's own units as they truly happened."""
    return [run for run in record.world.runs if run.vin != record.dirt.unknown_vin]


def test_no_run_crosses_a_shifts_end(record: Record) -> None:
    """What stands in the flow then is tested in the next shift."""
    for run in record.world.runs:
        shift = shift_at(run.started)
        assert shift is not None
        assert run.ended < shift.ends


def test_a_bench_tests_one_unit_at_a_time(record: Record) -> None:
    """Nor does an evaluator drive two units at once; a water bay has room for two."""
    places: dict[tuple[str, str | None], list[Run]] = defaultdict(list)
    for run in scheduled(record):
        if run.test != "water":
            places[run.station, run.operator].append(run)
    for runs in places.values():
        ordered = sorted(runs, key=lambda run: run.started)
        assert all(one.ended <= other.started for one, other in pairwise(ordered))


def test_tests_come_in_the_order_of_the_line(record: Record) -> None:
    """No unit is first in a later test before it was first in an earlier one."""
    first: dict[tuple[int, str], int] = {}
    for run in sorted(scheduled(record), key=lambda run: run.started):
        first.setdefault((run.unit.number, run.test), run.started)
    names = [test.name for test in TESTS]
    for number in range(0, 16_000, 97):
        starts = [first[number, name] for name in names if (number, name) in first]
        assert starts == sorted(starts)


def test_a_retest_follows_what_it_repeats(record: Record) -> None:
    """The first run of a unit in a test is its normal one, each later one a retest."""
    seen: set[tuple[str, str]] = set()
    for run in sorted(scheduled(record), key=lambda run: run.started):
        if run.purpose != "audit":
            assert run.purpose == ("retest" if (run.unit.vin, run.test) in seen else "normal")
            seen.add((run.unit.vin, run.test))


def test_every_bay_is_checked_in_every_shift(record: Record) -> None:
    """One reference vehicle a water bay, before the bay serves any other unit."""
    starts: dict[tuple[int, str], list[tuple[int, str]]] = defaultdict(list)
    for run in record.world.runs:
        shift = shift_at(run.started)
        if run.test == "water" and shift is not None:
            starts[shift.number, run.bay or ""].append((run.ended, run.unit.kind))
    assert len(starts) == 120
    assert all(min(runs)[1] == "reference" for runs in starts.values())
