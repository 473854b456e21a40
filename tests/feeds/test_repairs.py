"""Repairs and events."""

from __future__ import annotations

from feed_rows import VIN, parsed, reasons, utc


def test_repair() -> None:
    """A repair needs a unit and a time; ids that were not sent stay null."""
    text = f"vin,test,ended_at,action,class\n{VIN},water,2026-09-08 09:00,sealed,Repaired"
    repair = parsed("repairs", text).tables["repair"].row(0, named=True)
    assert repair["repair_id"] is None
    assert (repair["class"], repair["ended_at"]) == ("repaired", utc("2026-09-08T07:00:00"))


def test_repair_without_a_time() -> None:
    """A repair that is nowhere in time cannot be counted."""
    assert reasons(parsed("repairs", f"vin,action\n{VIN},sealed")) == [
        "the repair has no time; fill started_at, ended_at or entered_at"
    ]


def test_open_repair() -> None:
    """A repair without an end is open."""
    text = f"vin,started_at\n{VIN},2026-09-08 09:00"
    assert parsed("repairs", text).tables["repair"]["ended_at"].to_list() == [None]


def test_repair_that_ends_before_it_starts() -> None:
    """It is refused."""
    text = f"vin,started_at,ended_at\n{VIN},2026-09-08 09:00,2026-09-08 08:00"
    assert reasons(parsed("repairs", text)) == [
        "ended_at: '2026-09-08 08:00' lies before started_at '2026-09-08 09:00'"
    ]


def test_unknown_test_is_told() -> None:
    """A repair of a test the plant does not declare is kept."""
    batch = parsed("repairs", f"vin,test,ended_at\n{VIN},paint,2026-09-08 09:00")
    assert batch.tables["repair"].height == 1
    assert batch.notes == ("test 'paint' is not declared; its rows are kept",)


def test_event() -> None:
    """Who entered an event is a pseudonym (rule 18)."""
    text = f"vin,at,kind,reference,entered_by\n{VIN},2026-09-08 09:00,release,R-1,Ann"
    event = parsed("events", text).tables["event"].row(0, named=True)
    assert (event["kind"], event["reference"], event["entered_by"]) == ("release", "R-1", "p-ann")


def test_unknown_kind_of_event() -> None:
    """The kinds there are are listed."""
    batch = parsed("events", f"vin,at,kind\n{VIN},2026-09-08 09:00,lost")
    assert "'lost' is not one of line_off, move, hold" in reasons(batch)[0]
