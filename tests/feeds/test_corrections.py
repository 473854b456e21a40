"""Corrections, their values in the store's spelling."""

from __future__ import annotations

import pytest
from feed_rows import VIN, parsed, reasons

HEADER = "run_id,vin,field,value,reason,made_by\n"


@pytest.mark.parametrize(
    ("line", "value"),
    [
        ("7,,started_at,2026-09-08 06:00", "2026-09-08 04:00:00.000000+00:00"),
        ("7,,result,PASS", "pass"),
        (f"7,,vin,{VIN.lower()}", VIN),
        (f",{VIN},kind,Trial", "trial"),
        (f",{VIN},model,Wag", "Wag"),
        (f",{VIN},build_seq,100001", "100001"),
    ],
)
def test_value(line: str, value: str) -> None:
    """A time is UTC, a VIN capitals, a word small letters, all else as sent."""
    table = parsed("corrections", f"{HEADER}{line},typed wrongly,Ann").tables["correction"]
    assert table["value"].to_list() == [value]
    assert table["made_by"].to_list() == ["p-ann"]


def test_long_run_id_keeps_its_digits() -> None:
    """run_id is 60 bits long."""
    table = parsed("corrections", f"{HEADER}1847203948572039485,,result,pass,,").tables[
        "correction"
    ]
    assert table["run_id"].to_list() == [1847203948572039485]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (",,result,pass", "must name just one thing to mend"),
        (f"7,{VIN},result,pass", "must name just one thing to mend"),
        ("7,,model,WAG", "field: 'model' of a run cannot be mended"),
        (f",{VIN},result,pass", "field: 'result' of a unit cannot be mended"),
        ("7,,result,good", "value: 'good' is not one of pass, fail, aborted, bypass"),
        ("7,,started_at,soon", "value: 'soon' is no time"),
        ("7,,vin,X", "value: 'X' is no VIN"),
        (f",{VIN},build_seq,x", "value: 'x' is no whole number"),
        (f",{VIN},kind,x", "value: 'x' is not one of production"),
    ],
)
def test_refused(line: str, words: str) -> None:
    """What cannot be mended, or not to that value, is refused."""
    assert words in reasons(parsed("corrections", f"{HEADER}{line},,"))[0]
