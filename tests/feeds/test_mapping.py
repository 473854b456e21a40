"""Columns of files under the tool's names."""

from __future__ import annotations

import polars as pl
import pytest
from feed_rows import VIN, opened, parsed, rows

from eol.errors import FeedFileError
from eol.feeds.mapping import Mapped, broken_notes, extra_notes, map_rows, mapping_lines

OWN = f"vin,station,started_at,result\n{VIN},W1,2026-09-08 06:00,pass"


def mapped(text: str, more: str = "", feed: str = "water") -> Mapped:
    """Rows of the water feed, mapped."""
    return map_rows(rows(text), opened(feed, more), where="file.csv")


def test_own_columns_need_no_mapping() -> None:
    """Names are taken as they are; columns not sent are null."""
    frame = mapped(OWN).frame
    assert frame["vin"].to_list() == [VIN]
    assert frame["bay"].to_list() == [None]


def test_names_without_regard_to_case_and_blanks() -> None:
    """VIN and ' Result ' are found; the very name goes first."""
    frame = mapped(f"VIN,Station,started_at, Result \n{VIN},W1,2026-09-08 06:00,pass").frame
    assert frame.select("vin", "station", "result").row(0) == (VIN, "W1", "pass")


def test_renames() -> None:
    """A renamed column is found under the file's name."""
    more = '[feed.water.rename]\nVIN_NO = "vin"\nPRES = "pressure_kpa"\n'
    frame = mapped(OWN.replace("vin", "Vin_No"), more).frame
    assert frame["vin"].to_list() == [VIN]


def test_constants() -> None:
    """A constant stands in every row, also over a column that was sent."""
    more = '[feed.water]\nconstants = { station = "W9", purpose = "audit" }\n'
    frame = mapped(OWN, more).frame
    assert frame.select("station", "purpose").row(0) == ("W9", "audit")


def test_joins() -> None:
    """Several columns make one time; where one is empty there is none."""
    more = '[feed.water]\njoin = { started_at = ["DAY", "CLOCK"] }\n'
    text = (
        f"vin,station,DAY,CLOCK,result\n{VIN},W1,2026-09-08,06:00,pass\n{VIN},W1,2026-09-08,,pass"
    )
    assert mapped(text, more).frame["started_at"].to_list() == ["2026-09-08 06:00", None]


def test_values() -> None:
    """Words of the file become the tool's, in their very spelling first, then in any case."""
    more = '[feed.water.values.result]\nOK = "pass"\nnok = "fail"\n'
    text = "vin,station,started_at,result\n" + "\n".join(
        f"v,s,t,{word}" for word in ("OK", "ok", "NOK", "x")
    )
    assert mapped(text, more).frame["result"].to_list() == ["pass", "pass", "fail", "x"]


def test_values_of_numbers() -> None:
    """Codes that Parquet holds as numbers are mapped as they are written."""
    frame = pl.DataFrame(
        {
            "vin": [VIN],
            "station": ["W1"],
            "started_at": ["2026-09-08"],
            "result": [0],
            "file_row": [1],
        }
    )
    feed = opened("water", '[feed.water.values.result]\n0 = "pass"\n')
    assert map_rows(frame, feed, where="").frame["result"].to_list() == ["pass"]


def test_empty_text_is_null() -> None:
    """Blanks are no value."""
    assert mapped(OWN.replace("W1", "   ")).frame["station"].to_list() == [None]


def test_missing_column() -> None:
    """The error names the column, those found, the nearest, and the line to write."""
    with pytest.raises(FeedFileError) as caught:
        mapped(OWN.replace("started_at", "start_at"))
    assert str(caught.value) == (
        "file.csv: column started_at is missing; the file has vin, station, start_at, result\n"
        '  The nearest is start_at. Mend the file, or write start_at = "started_at" into '
        "[feed.water.rename] of plant.toml."
    )


def test_two_columns_for_one() -> None:
    """Two columns that give one are not chosen between."""
    more = '[feed.water.rename]\nVIN_NO = "vin"\n'
    text = f"vin,VIN_NO,station,started_at,result\n{VIN},{VIN},W1,2026-09-08 06:00,pass"
    with pytest.raises(FeedFileError, match="'vin' and 'VIN_NO' both give vin"):
        mapped(text, more)


def test_unknown_columns_are_told() -> None:
    """A column that is not used is named, with what was perhaps meant."""
    result = mapped(OWN.replace("result", "result,end_at,paint").replace("pass", "pass,,"))
    assert extra_notes(result, opened("water")) == (
        "column 'end_at' is not used; was ended_at meant?",
        "column 'paint' is not used",
    )


def test_columns_of_no_use() -> None:
    """Lists of Parquet and the tool's own inner names are left out."""
    frame = rows(OWN).with_columns(pl.Series("list", [[1, 2]]), pl.lit(1).alias("eol.unit"))
    assert map_rows(frame, opened("water"), where="").extra == ()


def test_every_column_is_explained() -> None:
    """One line a column: where it comes from and how it is read."""
    more = (
        '[feed.water]\nconstants = { station = "W1" }\nmeasure_units = { pressure_kpa = "bar" }\n'
        '[feed.water.rename]\nPRES = "pressure_kpa"\n'
    )
    text = f"vin,started_at,result,PRES,foo\n{VIN},2026-09-08 06:00,pass,2.5,"
    assert mapping_lines(mapped(text, more), opened("water", more)) == (
        "vin → vin (VIN)",
        "started_at → started_at (time, Europe/Berlin where it has no offset)",
        "result → result (one of a few words)",
        "PRES → pressure_kpa (number, bar)",
        "foo → foo (not used)",
        "'W1' → station (text)",
    )


def test_file_without_rows() -> None:
    """A header alone is a file of no rows."""
    batch = parsed("water", OWN.split("\n")[0])
    assert batch.rows == 0
    assert {name: table.height for name, table in batch.tables.items()} == {
        "run": 0,
        "finding": 0,
        "reading": 0,
    }


def test_very_name_goes_before_one_of_other_case() -> None:
    """One line of JSON whose key is damaged adds a column; the others are read all the same."""
    text = f"vin,station,started_at,started_aT,result\n{VIN},W1,2026-09-08 06:00,,pass"
    told = mapped(text)
    assert str(told.sources["started_at"]) == "started_at"
    assert told.extra == ("started_aT",)


def test_column_whose_name_cannot_be_read() -> None:
    """A name with signs that the encoding does not have names nothing."""
    text = f"vin,station,started_at,result,ro\N{REPLACEMENT CHARACTER}f\n{VIN},W1,2026-09-08 06:00,pass,x"
    assert mapped(text).extra == ()
    assert broken_notes(rows(text)) == (
        "column 'ro\N{REPLACEMENT CHARACTER}f' is not used, for its name cannot be read; "
        "set encoding in plant.toml",
    )
