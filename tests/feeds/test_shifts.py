"""Exceptions of the shift calendar."""

from __future__ import annotations

from feed_rows import parsed, reasons, utc

HEADER = "production_date,shift,crew,starts_at,ends_at,cancelled\n"


def test_shift_with_its_times() -> None:
    """A row replaces the window of its date and shift."""
    table = parsed(
        "shifts", f"{HEADER}2026-09-12,extra,red,2026-09-12 06:00,2026-09-12 12:00,"
    ).tables["shift_window"]
    row = table.row(0, named=True)
    assert (row["starts_at"], row["ends_at"]) == (
        utc("2026-09-12T04:00:00"),
        utc("2026-09-12T10:00:00"),
    )
    assert (row["crew"], row["cancelled"]) == ("red", False)


def test_crew_takes_the_times_of_plant_toml() -> None:
    """A row that only names the crew has the declared window."""
    row = (
        parsed("shifts", f"{HEADER}2026-09-08,day,blue,,,")
        .tables["shift_window"]
        .row(0, named=True)
    )
    assert (row["starts_at"], row["ends_at"]) == (
        utc("2026-09-08T04:00:00"),
        utc("2026-09-08T12:30:00"),
    )


def test_cancelled_shift() -> None:
    """A cancelled shift needs no times."""
    table = parsed("shifts", f"{HEADER}2026-09-08,day,,,,yes\n2026-09-08,extra,,,,yes").tables[
        "shift_window"
    ]
    assert table["cancelled"].to_list() == [True, True]


def test_unknown_shift_without_times() -> None:
    """A shift that plant.toml does not have must bring its times."""
    assert reasons(parsed("shifts", f"{HEADER}2026-09-08,dey,,,,")) == [
        "starts_at: plant.toml has no shift 'dey' on 2026-09-08; give the row starts_at and ends_at"
    ]


def test_shift_that_ends_before_it_starts() -> None:
    """It is refused."""
    line = "2026-09-08,day,,2026-09-08 14:00,2026-09-08 06:00,"
    assert "lies before starts_at" in reasons(parsed("shifts", HEADER + line))[0]


def test_date_beyond_all_calendars() -> None:
    """A slip of the pen is refused, not a crash."""
    assert "plant.toml has no shift" in reasons(parsed("shifts", f"{HEADER}0001-01-01,day,,,,"))[0]
