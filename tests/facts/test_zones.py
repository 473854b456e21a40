"""The defects of a shift by place."""

from __future__ import annotations

from typing import Any

from eol.facts.zones import zone_facts


def found(zone: str | None, defects: int, **fields: Any) -> dict[str, Any]:
    """Return one row of `page/zones`."""
    plain = {"title": None, "cell": None, "outline": None, "hv_near": None, "leading": None}
    return {"zone": zone, "defects": defects} | plain | fields


def test_cells_are_split_into_row_and_side() -> None:
    """A cell names row and side seen from above; its height does not move it."""
    zones = zone_facts([found("RR-QTR", 3, cell="rear-right-mid", title="Rear quarter")])
    assert (zones.placed[0].row, zones.placed[0].side) == ("rear", "right")
    assert zones.placed[0].title == "Rear quarter"


def test_outline_is_read_as_points() -> None:
    """An outline is pairs of numbers however they are separated; two points are no area."""
    zones = zone_facts(
        [found("A", 1, outline="0,0 4,0.5 4,-3"), found("B", 1, outline="0,0 4,0", cell="mid-left")]
    )
    assert zones.placed[0].outline == ((0.0, 0.0), (4.0, 0.5), (4.0, -3.0))
    assert zones.placed[1].outline == ()


def test_defects_without_a_place_are_counted() -> None:
    """A zone that the catalogue does not place, and a defect without any zone, are off the map."""
    zones = zone_facts(
        [found(None, 2), found("MODULE-7", 3), found("DASH", 4, cell="front-centre-mid")]
    )
    assert (zones.defects, zones.off_map, zones.without_zone) == (4, 5, 2)


def test_nothing_known_is_no_zone() -> None:
    """Without a catalogue and without defects there is no zone."""
    zones = zone_facts([])
    assert (zones.placed, zones.unplaced, zones.off_map) == ((), (), 0)
