"""Whole rows accepted or refused."""

from __future__ import annotations

import pytest
from feed_rows import NOW, PLANT, VIN, parsed, plant, reasons, rows

from eol.feeds.parse import parse_rows
from eol.plant.settings import parse_settings

HEADER = "vin,station,started_at,ended_at,result\n"


def refused(row: str, more: str = "") -> list[str]:
    """Why one row of the water test is refused."""
    return reasons(parsed("water", HEADER + row, more))


def test_good_row() -> None:
    """Nothing is said of a good row."""
    assert refused(f"{VIN},W1,2026-09-08 06:00,2026-09-08 06:04,pass") == []


def test_empty_required_cell() -> None:
    """A required cell may not be empty."""
    assert refused(f"{VIN},,2026-09-08 06:00,,pass") == ["station: the cell is empty"]


def test_all_faults_of_a_row_are_told() -> None:
    """Who mends a row mends it once."""
    told = refused("X,W1,soon,,maybe")[0]
    assert told.count("; ") >= 2
    assert all(told.count(f"{name}: ") == 1 for name in ("vin", "started_at", "result"))


def test_good_rows_of_a_bad_file() -> None:
    """A bad row never stops its file."""
    batch = parsed("water", f"{HEADER}X,W1,2026-09-08 06:00,,pass\n{VIN},W1,2026-09-08 06:00,,pass")
    assert batch.rows == 2
    assert batch.tables["run"]["file_row"].to_list() == [2]
    assert batch.rejected["file_row"].to_list() == [1]


def test_future() -> None:
    """A time after the load is refused, five minutes of slack apart."""
    assert refused(f"{VIN},W1,2026-11-25T12:04:00Z,,pass") == []
    assert refused(f"{VIN},W1,2026-11-25T12:06:00Z,,pass") == [
        "started_at: '2026-11-25T12:06:00Z' lies after the time of loading; set the clock of the "
        "bench, or its timezone or [[clock_offset]] in plant.toml"
    ]


def test_clock_known_to_be_fast() -> None:
    """A bench whose clock is declared 11 minutes fast may send times of the near future."""
    more = '[[clock_offset]]\nstation = "W1"\nvalid_from = 2026-09-03\nseconds = -660\n'
    row = f"{VIN},W1,2026-11-25T12:15:00Z,,pass"
    assert refused(row, more) == []
    assert len(refused(row.replace("W1", "W2"), more)) == 1


def test_before_the_record() -> None:
    """A time before starts_on, by local midnight, is refused."""
    assert refused(f"{VIN},W1,2025-12-31T23:00:00Z,,pass") == []
    assert refused(f"{VIN},W1,2025-12-31T22:59:00Z,,pass") == [
        "started_at: '2025-12-31T22:59:00Z' lies before the record begins on 2026-01-01 (starts_on)"
    ]


def test_end_before_start() -> None:
    """A run that ends before it starts is refused."""
    assert refused(f"{VIN},W1,2026-09-08 06:00,2026-09-08 05:59,pass") == [
        "ended_at: '2026-09-08 05:59' lies before started_at '2026-09-08 06:00'"
    ]


def test_time_that_never_was() -> None:
    """It is refused with its zone; a bench zone makes it a time (CASES 3)."""
    row = f"{VIN},W1,2026-03-29 02:30,,pass"
    assert "02:30 does not exist on 2026-03-29 in Europe/Berlin" in refused(row)[0]
    assert refused(row, '[feed.water]\ntimezone = "+01:00"\n') == []


def test_check_digit_where_the_plant_declares_it() -> None:
    """A wrong check digit is a fault only there (rule 17)."""
    text = f"{HEADER}{VIN},W1,2026-09-08 06:00,,pass"
    strict = PLANT.replace("[plant]", "[plant]\nvin_check_digit = true")
    assert parse_rows("water", rows(text), plant(), now=NOW).rejected.height == 0
    assert parse_rows("water", rows(text), parse_settings(strict), now=NOW).rejected.height == 1


@pytest.mark.parametrize("name", ["row", "reason", "bad", "sent", "test", "key_kind", "reasons"])
def test_column_names_never_collide(name: str) -> None:
    """A file may have any further column, also in a refused row."""
    text = (
        f"vin,station,started_at,result,{name}\nX,W1,soon,pass,1\n{VIN},W1,2026-09-08 06:00,pass,1"
    )
    batch = parsed("water", text)
    assert batch.tables["run"].height == 1
    assert f'"{name}":"1"' in batch.rejected["raw"][0]
