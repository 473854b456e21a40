"""Defects by the place on the unit, seen from above: the catalogue's outlines, else nine cells."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import altair as alt

from eol.facts.zones import ZoneCount, Zones
from eol.figures import theme
from eol.figures.links import place_id

WIDTH, HEIGHT = 600, 210
STEPS = ((15, "#0072B2"), (8, "#5A9ECB"), (3, "#A6CBE3"), (1, "#DCE9F3"), (0, "#FFFFFF"))
"""Fewest defects of each step of the one blue, and its colour; white is none."""

_ROWS = {"front": (1.0, 3.2), "mid": (3.2, 7.4), "rear": (7.4, 10.0)}
_SIDES = {"left": (0.35, 1.35), "centre": (1.35, 2.75), "right": (2.75, 3.75)}
_BEVEL = 0.45


@dataclass(frozen=True, slots=True)
class Patch:
    """One drawn area: its polygon, its zones, and where its words stand."""

    corners: tuple[tuple[float, float], ...]
    zones: tuple[ZoneCount, ...]

    @property
    def defects(self) -> int:
        """Defects of all its zones."""
        return sum(zone.defects for zone in self.zones)

    @property
    def centre(self) -> tuple[float, float]:
        """Middle of its bounding box."""
        across = [x for x, _ in self.corners]
        along = [y for _, y in self.corners]
        return (min(across) + max(across)) / 2, (min(along) + max(along)) / 2


def zone_map(zones: Zones) -> theme.Chart:
    """Return the map; every area with defects is a link to its units.

    Args:
        zones: at least one placed zone.
    """
    patches = drawn_patches(zones.placed)
    box = _box(patches)
    x = alt.X("x:Q", axis=None, scale=theme.scale(domain=[box[0], box[2]]))
    y = alt.Y("y:Q", axis=None, scale=theme.scale(domain=[box[3], box[1]]))
    width = min(WIDTH, HEIGHT * (box[2] - box[0]) / (box[3] - box[1]))
    layers = [_areas(patches, box, width), *_words(patches, x, y), _sides(box, x, y)]
    return alt.layer(*layers).properties(width=width, height=HEIGHT)


def drawn_patches(placed: Sequence[ZoneCount]) -> tuple[Patch, ...]:
    """Return the areas to draw: outlines where any zone has one, else the nine cells."""
    outlined = [zone for zone in placed if zone.outline]
    if outlined:
        return tuple(Patch(zone.outline, (zone,)) for zone in outlined)
    return tuple(
        Patch(_cell(row, side), tuple(z for z in placed if (z.row, z.side) == (row, side)))
        for row in _ROWS
        for side in _SIDES
    )


def fill(defects: int) -> str:
    """Return the step of blue for a count."""
    return next(colour for fewest, colour in STEPS if defects >= fewest)


def _cell(row: str, side: str) -> tuple[tuple[float, float], ...]:
    """A cell of the body; those at its corners lose the corner."""
    (left, right), (top, bottom) = _ROWS[row], _SIDES[side]
    cut_front = _BEVEL if row == "front" else 0.0
    cut_rear = _BEVEL * 0.7 if row == "rear" else 0.0
    if side == "left":
        return (
            (left + cut_front, top),
            (right - cut_rear, top),
            (right, top + cut_rear),
            (right, bottom),
            (left, bottom),
            (left, top + cut_front),
        )
    if side == "right":
        return (
            (left, top),
            (right, top),
            (right, bottom - cut_rear),
            (right - cut_rear, bottom),
            (left + cut_front, bottom),
            (left, bottom - cut_front),
        )
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def _box(patches: Sequence[Patch]) -> tuple[float, float, float, float]:
    xs = [x for patch in patches for x, _ in patch.corners]
    ys = [y for patch in patches for _, y in patch.corners]
    margin = 0.03 * max(max(xs) - min(xs), max(ys) - min(ys)) or 1.0
    return min(xs) - margin, min(ys) - margin, max(xs) + margin, max(ys) + margin


def _areas(
    patches: Sequence[Patch], box: tuple[float, float, float, float], width: float
) -> theme.Layer:
    across, down = width / (box[2] - box[0]), HEIGHT / (box[3] - box[1])
    shapes = [
        {
            "type": "Feature",
            "geometry": {"type": "Polygon", "coordinates": [_ring(patch, box, across, down)]},
            "fill": fill(patch.defects),
            "href": _target(patch),
            "spoken": _spoken(patch),
        }
        for patch in patches
    ]
    chart = alt.Chart(theme.data(shapes)).mark_geoshape(stroke=theme.INK, strokeWidth=1)
    return chart.encode(
        fill=alt.Fill("fill:N", scale=None), href="href:N", description="spoken:N"
    ).project(type="identity")


def _ring(
    patch: Patch, box: tuple[float, float, float, float], across: float, down: float
) -> list[list[float]]:
    corners = [*patch.corners, patch.corners[0]]
    return [[(x - box[0]) * across, (y - box[1]) * down] for x, y in corners]


def _target(patch: Patch) -> str:
    leading = next((zone for zone in patch.zones if zone.defects), None)
    return "#" + place_id("zone", leading.zone) if leading else "#zones"


def _spoken(patch: Patch) -> str:
    names = ", ".join(f"{zone.title} {zone.defects}" for zone in patch.zones if zone.defects)
    return names or "no defect"


def _words(patches: Sequence[Patch], x: alt.X, y: alt.Y) -> list[theme.Layer]:
    """The count of each area, and under it the names of its leading zones."""
    cells = not any(zone.outline for patch in patches for zone in patch.zones)
    counts = [_count(patch) for patch in patches]
    names = list(_names(patches)) if cells else []
    dark = alt.Color("ink:N", scale=None)
    base = alt.Chart(theme.data(counts)).mark_text(
        fontSize=21, fontWeight="bold", dy=-8 if cells else 0
    )
    small = alt.Chart(theme.data(names)).mark_text(fontSize=12, limit=150, dy=12)
    layers = [base.encode(x=x, y=y, text="defects:N", color=dark)]
    return layers + ([small.encode(x=x, y=y, text="name:N", color=dark)] if names else [])


def _count(patch: Patch) -> dict[str, Any]:
    x, y = patch.centre
    return {"x": x, "y": y, "defects": str(patch.defects), "ink": _ink(patch.defects)}


def _names(patches: Iterable[Patch]) -> Iterable[dict[str, Any]]:
    for patch in patches:
        found = sorted((z for z in patch.zones if z.defects), key=lambda z: -z.defects)
        if found:
            x, y = patch.centre
            name = " · ".join(f"{zone.title} {zone.defects}" for zone in found[:2])
            yield {"x": x, "y": y, "name": name, "ink": _ink(patch.defects)}


def _ink(defects: int) -> str:
    return theme.WHITE if defects >= STEPS[0][0] else theme.INK


def _sides(box: tuple[float, float, float, float], x: alt.X, y: alt.Y) -> theme.Layer:
    middle = (box[1] + box[3]) / 2
    words = [
        {"x": box[0], "y": middle, "word": "front"},
    ]
    text = alt.Chart(theme.data(words)).mark_text(angle=270, dy=-6, fontSize=13, color=theme.MUTED)
    return text.encode(x=x, y=y, text="word:N")
