"""Rows of a test made runs, findings and conditions."""

from __future__ import annotations

import polars as pl
import pytest
from feed_rows import OTHER_VIN, VIN, parsed, utc

COLUMNS = (
    *("vin", "station", "bay", "started_at", "ended_at", "result", "code", "zone", "step"),
    *("quantity", "pressure_kpa", "operator", "revision", "run_ref"),
)
HEADER = ",".join(COLUMNS) + "\n"


def row(**cells: object) -> str:
    """One row, a clean pass where nothing else is said."""
    base = {"vin": VIN, "station": "W1", "started_at": "2026-09-08 06:00", "result": "pass"}
    return ",".join(str((base | cells).get(name, "")) for name in COLUMNS)


def water(*rows: str) -> dict[str, pl.DataFrame]:
    """The tables of some rows."""
    return parsed("water", HEADER + "\n".join(rows)).tables


def notes(*rows: str) -> tuple[str, ...]:
    """What is noted of some rows."""
    return parsed("water", HEADER + "\n".join(rows)).notes


def test_clean_run() -> None:
    """A clean run is one row with the code empty."""
    tables = water(row(bay="A", ended_at="2026-09-08 06:04", operator="Ann"))
    run = tables["run"].row(0, named=True)
    assert run["started_at"] == utc("2026-09-08T04:00:00")
    assert run["ended_at"] == utc("2026-09-08T04:04:00")
    assert (run["test"], run["bay"], run["operator"], run["file_row"]) == ("water", "A", "p-ann", 1)
    assert tables["finding"].height == tables["reading"].height == 0


def test_rows_of_one_run_are_one_run() -> None:
    """One row a finding: the run is their first row, filled from the later ones."""
    tables = water(
        row(result="fail", code="LEAK", zone="RRQ"),
        row(result="fail", code="LEAK", zone="LRQ", bay="A", operator="Ann"),
    )
    run = tables["run"].row(0, named=True)
    assert tables["run"].height == 1
    assert (run["bay"], run["operator"], run["file_row"]) == ("A", "p-ann", 1)
    assert tables["finding"]["zone"].to_list() == ["RRQ", "LRQ"]


@pytest.mark.parametrize(
    ("results", "worst"),
    [
        (("pass", "fail"), "fail"),
        (("aborted", "fail"), "fail"),
        (("bypass", "aborted"), "aborted"),
        (("pass", "bypass"), "bypass"),
    ],
)
def test_worst_result_counts(results: tuple[str, str], worst: str) -> None:
    """Of rows that disagree: fail, aborted, bypass, pass (rule 5); it is reported."""
    rows = [row(result=result) for result in results]
    assert water(*rows)["run"]["result"].to_list() == [worst]
    assert notes(*rows) == (
        "result: rows of 1 run disagree; the worst counts (fail, aborted, bypass, pass)",
    )


def test_start_is_known_to_the_second() -> None:
    """10:00:00.483 and 10:00:00 are one run (rule 1, CASES 12); the second after is another."""
    started = ("2026-09-08 10:00:00.483", "2026-09-08 10:00:00", "2026-09-08 10:00:01")
    assert water(*(row(started_at=at) for at in started))["run"].height == 2


def test_run_ref_names_the_run_within_its_station() -> None:
    """Where the bench names its runs, the start may differ (rule 1)."""
    rows = (
        row(run_ref="7", started_at="2026-09-08 06:00"),
        row(run_ref="7", started_at="2026-09-08 06:01"),
        row(run_ref="7", station="W2"),
    )
    assert water(*rows)["run"].height == 2


def test_vins_that_disagree_are_told() -> None:
    """One run_ref cannot be of two units; the first row's is taken."""
    rows = (row(run_ref="7"), row(run_ref="7", vin=OTHER_VIN))
    assert water(*rows)["run"]["vin"].to_list() == [VIN]
    assert notes(*rows) == (
        "vin: rows of 1 run disagree though run_ref is one; the first was taken",
    )


def test_higher_revision_wins_within_a_file() -> None:
    """Of two versions the higher revision counts, with its findings; null is 0 (rule 1)."""
    rows = (row(result="fail", code="LEAK"), row(revision=1), row(vin=OTHER_VIN))
    tables = water(*rows)
    assert sorted(tables["run"].select("vin", "result").rows()) == [
        (VIN, "pass"),
        (OTHER_VIN, "pass"),
    ]
    assert tables["finding"].height == 0
    assert notes(*rows) == ("1 row of an older revision gave way to a newer one of the same file",)


def test_bays_under_their_other_name() -> None:
    """A bay sent as 1 is A; an undeclared one is kept and told."""
    rows = (row(bay="1"), row(bay="C", started_at="2026-09-08 07:00"))
    assert water(*rows)["run"]["bay"].to_list() == ["A", "C"]
    assert notes(*rows) == ("bay 'C' of station 'W1' is not declared; its rows are kept",)


def test_condition_is_a_reading() -> None:
    """A declared condition is sample 1 of its reading, in its declared unit."""
    reading = water(row(pressure_kpa=250))["reading"].row(0, named=True)
    assert (reading["name"], reading["sample"], reading["value"]) == ("pressure_kpa", 1, 250)
    assert (reading["measure_unit"], reading["lower"], reading["upper"]) == ("kPa", None, None)


def test_condition_in_several_rows_of_a_run() -> None:
    """The same value counts once; differing ones are samples in the order of the rows."""
    same = water(row(pressure_kpa=250, code="A"), row(pressure_kpa=250, code="B"))["reading"]
    differing = water(*(row(pressure_kpa=value, code=value) for value in (250, 212, 250)))[
        "reading"
    ]
    assert same.select("sample", "value").rows() == [(1, 250)]
    assert sorted(differing.select("sample", "value").rows()) == [(1, 212), (2, 250)]


def test_zone_without_a_code() -> None:
    """Where but not what is no finding, and is told."""
    assert water(row(result="fail", zone="RRQ"))["finding"].height == 0
    assert notes(row(result="fail", zone="RRQ")) == (
        "code: 1 row with a zone, step or severity but no code made no finding",
    )
