"""Codes, zones, countermeasures, lots and unit keys."""

from __future__ import annotations

from datetime import date

import pytest
from feed_rows import VIN, parsed, reasons, utc

from eol.feeds.catalogues import circular_codes


def test_code() -> None:
    """A code is dated by local midnights; what is not said to hurt does not."""
    text = "code,test,severity,valid_from\nLEAK,water,c,2026-03-01"
    code = parsed("defect_codes", text).tables["defect_code"].row(0, named=True)
    assert (code["severity"], code["safety_related"]) == ("C", False)
    assert (code["valid_from"], code["valid_to"]) == (utc("2026-02-28T23:00:00"), None)


def test_clauses_of_a_code() -> None:
    """One row an accepted value of a clause (rule 10)."""
    text = "code,test,applies_when\nDRAIN,water,roof=opening & model=WAG|VAN\nDUST,,roof=opening"
    table = parsed("defect_codes", text).tables["applies"]
    assert table.select("owner", "clause", "name", "value").rows() == [
        ("code:DRAIN:water", 1, "roof", "opening"),
        ("code:DRAIN:water", 2, "model", "WAG"),
        ("code:DRAIN:water", 2, "model", "VAN"),
        ("code:DUST:", 1, "roof", "opening"),
    ]


def test_clause_that_cannot_be_read() -> None:
    """It is refused with what is wrong."""
    assert reasons(parsed("defect_codes", "code,applies_when\nDRAIN,opening")) == [
        "applies_when: 'opening' is no clause; write name=value or name=value|value"
    ]


def test_codes_that_run_in_a_circle() -> None:
    """Codes counted with each other need a root (rule 12)."""
    text = "code,same_as\nA,B\nB,A\nC,A\nD,D"
    told = reasons(parsed("defect_codes", text))
    assert [reason.split(";")[0] for reason in told] == [
        "same_as: 'A' comes back to itself through same_as",
        "same_as: 'B' comes back to itself through same_as",
        "same_as: 'D' is the code itself",
    ]


def test_circles() -> None:
    """A chain ends, a circle does not; what leads into a circle is not in it."""
    assert circular_codes({"A": "B", "B": "C"}) == frozenset()
    assert circular_codes({"A": "B", "B": "C", "C": "A", "X": "A"}) == frozenset("ABC")


def test_zone() -> None:
    """A zone lies in a cell and may have an outline."""
    text = 'zone,cell,outline,hv_near\nRR-QTR,rear-right-mid,"0,0 1,0 1,1",yes\nTAIL,,,'
    table = parsed("zones", text).tables["zone"]
    assert table["hv_near"].to_list() == [True, False]
    assert table["cell"].to_list() == ["rear-right-mid", None]


@pytest.mark.parametrize(
    ("column", "cell", "words"),
    [
        ("cell", "back-right", "is no cell; write one such as rear-right-low"),
        ("outline", '"0,0 1,1"', "is no polygon"),
    ],
)
def test_zone_nowhere(column: str, cell: str, words: str) -> None:
    """A cell or outline that cannot be drawn is refused."""
    assert words in reasons(parsed("zones", f"zone,{column}\nTAIL,{cell}"))[0]


def test_countermeasure() -> None:
    """Days stay days, a cut-in is a time."""
    text = (
        "test,code,opened_on,cut_in_at,expected_ratio\nwater,LEAK,2026-09-08,2026-09-09 06:00,0.5"
    )
    action = parsed("countermeasures", text).tables["countermeasure"].row(0, named=True)
    assert action["opened_on"] == date(2026, 9, 8)
    assert action["cut_in_at"] == utc("2026-09-09T04:00:00")


def test_baseline_that_runs_backwards() -> None:
    """It is refused."""
    text = "code,baseline_from,baseline_to\nLEAK,2026-09-08,2026-09-01"
    assert reasons(parsed("countermeasures", text)) == [
        "baseline_to: '2026-09-01' lies before baseline_from '2026-09-08'"
    ]


def test_lot() -> None:
    """A lot has a range of sequence numbers or of times."""
    text = "part,lot,from_build_seq,to_build_seq\nclip,C-4471,100001,100900\nclip,C-4472,,\nclip,C-4473,2,1"
    batch = parsed("lots", text)
    assert batch.tables["lot"].select("lot", "from_build_seq").rows() == [("C-4471", 100001)]
    assert reasons(batch) == [
        "the lot has no range; fill from_build_seq and to_build_seq, or from_at and to_at",
        "to_build_seq: '1' is below from_build_seq '2'",
    ]


def test_unit_key() -> None:
    """A key names a unit for a while; kind and value are as sent."""
    table = parsed(
        "unit_keys", f"kind,value,vin,valid_from\nskid,012,{VIN},2026-09-08 06:00"
    ).tables["unit_key"]
    assert table.row(0) == ("skid", "012", VIN, utc("2026-09-08T04:00:00"), None, 1)
