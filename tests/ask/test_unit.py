"""The trail of a unit: everything known of it, in order."""

from __future__ import annotations

import builders as b
import plants
import pytest
from plants import vin

from eol.ask.unit import unit_trail
from eol.errors import UsageError
from eol.plant.folder import PlantFolder


def test_trail_is_in_order_of_time(small_plant: PlantFolder) -> None:
    """Tests, findings, repairs and events of a unit, one a row, by time."""
    trail = unit_trail(small_plant, vin("U2"))
    assert trail.rows["at"].drop_nulls().is_sorted()
    whats = trail.rows["what"].to_list()
    assert whats.count("run") == 3
    assert {"finding", "repair", "event"} <= set(whats)


def test_status_of_each_test(small_plant: PlantFolder) -> None:
    """One row a test, with what the unit stands at."""
    status = unit_trail(small_plant, vin("U3")).status
    assert status.select("test", "status").rows() == [("electrical", "passed"), ("water", "failed")]


def test_words_of_caution_come_first_hand(small_plant: PlantFolder) -> None:
    """The catalogue's handling stands beside a unit with such a finding, and only there."""
    assert unit_trail(small_plant, vin("U2")).handling == ("Dry it.",)
    assert unit_trail(small_plant, vin("U1")).handling == ()


def test_case_of_a_vin_does_not_matter(small_plant: PlantFolder) -> None:
    """A VIN typed in lower case or with blanks is the same."""
    assert unit_trail(small_plant, f" {vin('u1')} ").unit["vin"] == vin("U1")


def test_unit_of_a_test_alone_is_told(folder: PlantFolder) -> None:
    """A unit that no schedule named has a trail too."""
    plants.load(folder, b.file("water", b.run("U7")))
    assert unit_trail(folder, vin("U7")).unit["in_schedule"] is False


def test_unknown_vin_names_the_nearest(small_plant: PlantFolder) -> None:
    """An unknown VIN is a wrong call; at most three that are like it are named (rule 17)."""
    with pytest.raises(UsageError, match=rf"VIN {vin('U4')}\n  Nearest: .*U1, .*U2, .*U3$"):
        unit_trail(small_plant, vin("U4"))


def test_nothing_like_it(folder: PlantFolder) -> None:
    """In an empty plant nothing is near, so the hint is to load."""
    with pytest.raises(UsageError, match=r"no unit has the VIN .*U4\n  Run eol ingest first"):
        unit_trail(folder, vin("U4"))


def test_unit_of_a_misread_vin_names_the_nearest(folder: PlantFolder) -> None:
    """A unit that no schedule named offers those that are like it, untested ones first (rule 17)."""
    units = [b.unit(vin) for vin in ("U12", "U13", "U14", "U71")]
    plants.load(folder, b.file("units", units), b.file("water", b.run("U21") + b.run("U71")))
    near = unit_trail(folder, vin("U21")).nearest
    assert near == (vin("U12"), vin("U13"), vin("U14"))
    assert unit_trail(folder, vin("U12")).nearest == ()
