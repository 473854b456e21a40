"""Stations and bays under their declared names."""

from __future__ import annotations

from feed_rows import opened, rows

from eol.feeds.stations import place_notes, with_declared_bays

SENT = rows("station,bay\nW1,1\nW1,A\nW2,1\nW1,\n")


def test_alias_is_of_its_station() -> None:
    """Bay 1 of W1 is A; of another station it stays 1."""
    assert with_declared_bays(SENT, opened("water"))["bay"].to_list() == ["A", "A", "1", None]


def test_undeclared_station() -> None:
    """It is told once and its rows are kept."""
    placed = with_declared_bays(SENT, opened("water"))
    assert place_notes(placed, opened("water")) == (
        "station 'W2' is not declared for water; its rows are kept",
    )


def test_test_without_declared_stations() -> None:
    """A plant that declares no station of a test is not told of each."""
    assert place_notes(SENT, opened("electrical")) == ()
