from pathlib import Path

import polars as pl

from eol.demo import tables
from eol.demo.record import Record


def test_a_run_with_two_findings_has_two_rows(record: Record) -> None:
    """One row a finding, one for a clean run."""
    runs = [run for run in record.world.runs if run.test == "electrical"]
    rows = tables.test_rows("electrical", runs)
    assert len(rows) == sum(max(len(run.findings), 1) for run in runs)
    assert rows["code"].null_count() == sum(not run.findings for run in runs)


def test_a_test_sends_its_own_columns_alone(record: Record) -> None:
    """Conditions and bays come with the water test, evaluators with the track."""
    water = set(tables.test_rows("water", []).columns)
    track = set(tables.test_rows("squeak_rattle", []).columns)
    assert {"bay", "run_ref", "pressure_kpa", "duration_s", "flow_lpm"} <= water - track
    assert "operator" in track - water


def test_some_six_facts_of_each_unit(committed: Path) -> None:
    """Four columns beside the schedule, the bead, and the clip lot of most."""
    extra = 4 * sum(len(pl.read_parquet(file)) for file in committed.glob("units_*"))
    rows = sum(len(pl.read_parquet(file)) for file in committed.glob("attributes_*"))
    assert 5.5 < (extra + rows) / 16_000 < 6.1


def test_repairs_and_events_have_names_of_their_own(committed: Path) -> None:
    """No id comes twice."""
    for feed, name in (("repairs", "repair_id"), ("events", "event_id")):
        ids = pl.concat(
            [pl.read_parquet(file, columns=[name]) for file in committed.glob(f"{feed}_*")]
        )
        assert ids[name].is_unique().all()


def test_no_unit_is_shipped_unsigned(committed: Path) -> None:
    """Each ship event follows its unit's sign-off."""
    events = pl.concat([pl.read_parquet(file) for file in sorted(committed.glob("events_*"))])
    at = events.group_by("vin").agg(
        signed=pl.col("at").filter(pl.col("kind") == "signed_off").first(),
        shipped=pl.col("at").filter(pl.col("kind") == "ship").first(),
    )
    assert at.filter(
        pl.col("shipped").is_not_null() & (pl.col("signed") >= pl.col("shipped"))
    ).is_empty()
