"""Findings, with their test or apart from it."""

from __future__ import annotations

from feed_rows import VIN, parsed, reasons, utc

HEADER = "vin,station,started_at,run_ref,code,zone,step,quantity\n"


def test_findings_that_come_apart() -> None:
    """A finding names its run by unit, station and start."""
    batch = parsed("water_findings", f"{HEADER}{VIN},W1,2026-09-08 06:00,,LEAK,RRQ,roof,2")
    finding = batch.tables["finding"].row(0, named=True)
    assert finding["started_at"] == utc("2026-09-08T04:00:00")
    assert (finding["test"], finding["code"], finding["quantity"]) == ("water", "LEAK", 2)


def test_run_ref_alone_names_the_run() -> None:
    """With a run_ref neither unit nor start is needed."""
    batch = parsed("water_findings", "station,run_ref,code\nW1,7,LEAK")
    assert batch.tables["finding"].select("vin", "started_at", "run_ref").rows() == [
        (None, None, "7")
    ]


def test_finding_without_a_run() -> None:
    """A row that names no run is refused."""
    batch = parsed("water_findings", f"{HEADER}{VIN},W1,,,LEAK,,,")
    assert reasons(batch) == ["the row names no run; fill run_ref, or vin and started_at"]


def test_later_row_of_one_finding_wins() -> None:
    """Of two findings with one run, code, zone and step the later row is taken."""
    line = f"{VIN},W1,2026-09-08 06:00,,LEAK,RRQ,roof,"
    batch = parsed("water_findings", f"{HEADER}{line}1\n{line}3")
    assert batch.tables["finding"].select("quantity", "file_row").rows() == [(3, 2)]
    assert batch.notes == ("1 finding came twice for a run; the later row was taken",)


def test_same_code_at_two_steps_is_two_findings() -> None:
    """The step is part of a finding's key (CASES 9)."""
    line = f"{VIN},W1,2026-09-08 06:00,,LEAK,RRQ,"
    batch = parsed("water_findings", f"{HEADER}{line}roof,1\n{line}rear,3\n{line},1")
    assert batch.tables["finding"]["step"].to_list() == ["roof", "rear", None]


def test_quantity_out_of_bounds() -> None:
    """Outside 1 to max_quantity it is null and told; the finding stays (rule 8)."""
    lines = "\n".join(
        f"{VIN},W1,2026-09-08 06:00,,LEAK,{zone},,{quantity}"
        for zone, quantity in (("A", 0), ("B", 1), ("C", 20), ("D", 21))
    )
    batch = parsed("water_findings", HEADER + lines)
    assert batch.tables["finding"]["quantity"].to_list() == [None, 1, 20, None]
    assert batch.notes == ("quantity: 2 findings outside 1 to 20 taken without the quantity",)
