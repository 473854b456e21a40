"""Defects by place."""

from __future__ import annotations

from chart_rows import chart_rows
from made_up_shift import zones

from eol.facts.zones import ZoneCount, Zones
from eol.figures.zone_map import STEPS, drawn_patches, step_of_blue, zone_map


def outlined(name: str, defects: int, corners: tuple[tuple[float, float], ...]) -> ZoneCount:
    """Return a zone with an outline."""
    return ZoneCount(name, name, None, None, corners, False, defects, None)


SQUARE = ((10.0, 10.0), (20.0, 10.0), (20.0, 20.0), (10.0, 20.0))


def test_cells_hold_all_zones_of_their_place() -> None:
    """Without outlines nine cells are drawn, and no placed defect is lost."""
    patches = drawn_patches(zones(19, 4, 7, 3, 11, 3, 2, 0).placed)
    assert len(patches) == 9
    assert sum(patch.defects for patch in patches) == 49


def test_left_side_is_at_the_bottom() -> None:
    """With the front at the left, the unit's left side lies at the bottom seen from above."""
    patches = drawn_patches(zones(1, 1).placed)
    across = {z.side: patch.corners[0][1] for patch in patches for z in patch.zones}
    assert across["right"] < across["left"]


def test_outlines_win_over_cells() -> None:
    """Where the catalogue has outlines, each of them is drawn."""
    (patch,) = drawn_patches([outlined("A", 3, SQUARE)])
    assert patch.corners == SQUARE


def test_number_stands_in_its_zone() -> None:
    """The printed count lies within the drawn polygon."""
    made = Zones(
        (outlined("A", 3, SQUARE), outlined("B", 0, ((0.0, 0.0), (90.0, 0.0), (90.0, 30.0)))), (), 0
    )
    spec = zone_map(made).to_dict()
    shape = next(row for row in chart_rows(spec) if row.get("spoken") == "A 3")
    ring = shape["geometry"]["coordinates"][0]
    number = next(row for row in chart_rows(spec) if row.get("words") == "3")
    assert min(x for x, _ in ring) < number["x"] < max(x for x, _ in ring)
    assert min(y for _, y in ring) < number["y"] < max(y for _, y in ring)


def test_steps_of_one_blue() -> None:
    """No defect is white, and each step begins at its count."""
    assert [step_of_blue(fewest) for fewest, _ in STEPS] == [colour for _, colour in STEPS]
    assert step_of_blue(0) == "#FFFFFF"


def test_area_leads_to_its_fullest_zone() -> None:
    """A cell with several zones leads to the list of the one with most defects."""
    targets = {row.get("href") for row in chart_rows(zone_map(zones(19, 4)).to_dict())}
    assert {"#zone-RR-QTR", "#zone-RL-QTR", "#zones"} <= targets
