"""Readings, long and wide."""

from __future__ import annotations

import polars as pl
import pytest
from feed_rows import NOW, VIN, parsed, plant, reasons

from eol.errors import FeedFileError
from eol.feeds.batch import RowBatch
from eol.feeds.parse import parse_rows
from eol.feeds.readings import READING_COLUMNS, no_readings

START = "2026-09-08 06:00"


def long(*lines: str, header: str = "name,sample,value") -> RowBatch:
    """Long readings of one run."""
    rows = "\n".join(f"{VIN},W1,{START},{line}" for line in lines)
    return parsed("water_readings", f"vin,station,started_at,{header}\n{rows}")


def samples(batch: RowBatch) -> list[tuple[str, int, float]]:
    """Name, sample and value of each reading."""
    return sorted(batch.tables["reading"].select("name", "sample", "value").rows())


def test_long() -> None:
    """A row a reading, with its sample number."""
    assert samples(long("volts,1,12.1", "volts,2,12.2", "amps,1,3")) == [
        ("amps", 1, 3),
        ("volts", 1, 12.1),
        ("volts", 2, 12.2),
    ]


def test_sample_is_1_where_none_is_sent() -> None:
    """A reading without sample number is the first."""
    assert samples(long("volts,12.1", header="name,value")) == [("volts", 1, 12.1)]


def test_repeats_without_sample_numbers() -> None:
    """Equal values count once, differing ones are samples in the order of the rows."""
    batch = long("volts,12.1", "volts,12.1", "volts,11.9", header="name,value")
    assert samples(batch) == [("volts", 1, 12.1), ("volts", 2, 11.9)]


def test_later_row_of_one_sample_wins() -> None:
    """Two values under one sample number are not both kept; it is told."""
    batch = long("volts,1,12.1", "volts,1,11.9")
    assert samples(batch) == [("volts", 1, 11.9)]
    assert batch.notes == ("1 reading came twice under one sample number; the later was taken",)


def test_long_readings_need_name_and_value() -> None:
    """An empty value tells nothing, a sample counts from 1."""
    batch = long("volts,1,", ",1,3", "volts,0,1")
    assert reasons(batch) == [
        "value: the cell is empty",
        "name: the cell is empty",
        "sample: '0' is below 1",
    ]


def test_limits_are_kept_as_sent() -> None:
    """Lower and upper limit stand beside the value."""
    batch = long("volts,12,11,13,V", header="name,value,lower,upper,measure_unit")
    reading = batch.tables["reading"].row(0, named=True)
    assert (reading["lower"], reading["upper"], reading["measure_unit"]) == (11, 13, "V")


def wide(header: str, *lines: str) -> RowBatch:
    """Wide readings."""
    rows = "\n".join(f"{VIN},W1,2026-09-08 0{hour}:00,{line}" for hour, line in enumerate(lines))
    return parsed("water_readings", f"vin,station,started_at,{header}\n{rows}")


def test_wide() -> None:
    """A column a reading; an empty cell is none."""
    batch = wide("volts,amps", "12.1,3", "12.2,")
    assert samples(batch) == [("amps", 1, 3), ("volts", 1, 12.1), ("volts", 1, 12.2)]


def test_wide_with_samples() -> None:
    """A wide row may carry its sample number."""
    assert samples(wide("sample,volts", "4,12.1")) == [("volts", 4, 12.1)]


def test_columns_of_text_are_no_readings() -> None:
    """A column that holds no numbers is left out and told."""
    batch = wide("volts,remark", "12.1,good")
    assert samples(batch) == [("volts", 1, 12.1)]
    assert batch.notes == ("column 'remark' holds no readings and is not used",)


def test_bad_cell_of_a_column_of_numbers() -> None:
    """Where most cells are numbers, one that is none is refused."""
    batch = wide("volts", "12.1", "x", "12.2")
    assert reasons(batch) == ["volts: 'x' is no number"]


def test_declared_condition_is_always_a_reading() -> None:
    """A condition's column is not taken for text, however bad its cells."""
    assert reasons(wide("pressure_kpa", "x")) == ["pressure_kpa: 'x' is no number"]


def test_file_without_readings() -> None:
    """Neither name and value nor a column of numbers: the file is refused."""
    with pytest.raises(FeedFileError, match="the file has no readings"):
        wide("remark", "good")


def test_native_columns() -> None:
    """Wide readings of Parquet keep their numbers; a flag is no number."""
    frame = pl.DataFrame(
        {
            "vin": [VIN],
            "station": ["W1"],
            "started_at": [NOW],
            "volts": [12.5],
            "n": [3],
            "ok": [True],
            "file_row": [1],
        }
    )
    batch = parse_rows("water_readings", frame, plant(), now=NOW)
    assert samples(batch) == [("n", 1, 3), ("volts", 1, 12.5)]


def test_no_readings_have_the_columns_of_readings() -> None:
    """An empty table has the same columns and types as a full one."""
    full = long("volts,1,12.1").tables["reading"]
    assert no_readings().schema == full.schema
    assert full.columns == [*READING_COLUMNS, "file_row"]


@pytest.mark.parametrize(("header", "missing"), [("name,walue", "value"), ("nome,value", "name")])
def test_half_a_long_file_is_no_wide_one(header: str, missing: str) -> None:
    """With one of its two columns lost a long file would tell other readings: it is refused."""
    with pytest.raises(FeedFileError, match=f"but {missing} is missing"):
        long("volts,12.1", header=header)
