"""Units as sent, and what is known of them from upstream."""

from __future__ import annotations

import polars as pl
from feed_rows import NOW, OTHER_VIN, VIN, parsed, plant, reasons, utc

from eol.feeds.parse import parse_rows

SCHEDULE = f"""vin,build_seq,model,line_off_at,roof,bead,kind
{VIN},100001,WAG,2026-09-08 06:00,opening,5.5,
{OTHER_VIN},100002,VAN,,,,trial
"""


def test_unit() -> None:
    """A row of the schedule is a unit as sent."""
    units = parsed("units", SCHEDULE).tables["unit_sent"]
    assert units.row(0) == (VIN, 100001, "WAG", None, None, utc("2026-09-08T04:00:00"), 1)
    assert units["kind"].to_list() == [None, "trial"]


def test_other_columns_are_attributes() -> None:
    """Each filled cell is an attribute, a number too where it is one."""
    attributes = parsed("units", SCHEDULE).tables["attribute"]
    shown = attributes.select("vin", "name", "source", "text_value", "number_value").rows()
    assert shown == [
        (VIN, "roof", "units", "opening", None),
        (VIN, "bead", "units", "5.5", 5.5),
    ]
    assert attributes["at"].to_list() == [utc("2026-09-08T04:00:00")] * 2


def test_schedule_without_attributes() -> None:
    """A file of the tool's own columns alone has none."""
    assert parsed("units", f"vin\n{VIN}").tables["attribute"].height == 0


def test_attribute_columns_may_have_any_name() -> None:
    """No name of an attribute gets in the way, also in a refused row."""
    names = "name,at,source,row,reason,value,station,text_value"
    batch = parsed("units", f"vin,{names}\n{VIN},1,2,3,4,5,6,7,8\nX,1,2,3,4,5,6,7,8")
    assert batch.tables["attribute"]["name"].to_list() == names.split(",")
    assert batch.tables["attribute"]["number_value"].to_list() == [1, 2, 3, 4, 5, 6, 7, 8]
    assert batch.rejected.height == 1


def test_native_attributes() -> None:
    """Numbers, flags and words of Parquet are attributes."""
    frame = pl.DataFrame(
        {
            "vin": [VIN],
            "bead": [5.5],
            "hv": [True],
            "paint": pl.Series(["RED"], dtype=pl.Categorical),
            "file_row": [1],
        }
    )
    table = parse_rows("units", frame, plant(), now=NOW).tables["attribute"]
    assert table.select("text_value", "number_value").rows() == [
        ("5.5", 5.5),
        ("true", None),
        ("RED", None),
    ]


def test_planned_line_off_is_refused() -> None:
    """line_off_at is when a unit left the line, not when it will."""
    batch = parsed("units", f"vin,line_off_at\n{VIN},2027-01-01 06:00")
    assert reasons(batch) == [
        "line_off_at: '2027-01-01 06:00' lies after the time of loading; send it when it has happened"
    ]


def test_attributes() -> None:
    """A value sent as text is a number where it can be, and the other way round."""
    text = (
        "vin,name,at,text_value,number_value,measure_unit\n"
        f"{VIN},bead,2026-09-08,,5.5,mm\n{VIN},gap,,4,,\n{VIN},tint,,,,"
    )
    batch = parsed("attributes", text)
    table = batch.tables["attribute"]
    assert table.select("name", "text_value", "number_value", "measure_unit").rows() == [
        ("bead", "5.5", 5.5, "mm"),
        ("gap", "4", 4, None),
    ]
    assert table["at"].to_list() == [utc("2026-09-07T22:00:00"), None]
    assert reasons(batch) == ["the row has no value; fill text_value"]
