"""Defects by the place on the unit, seen from above: the catalogue's outlines, else nine cells.

The front is at the left, so that the unit's left side is at the bottom.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import altair as alt

from eol.facts.zones import ZoneCount, Zones
from eol.figures import theme
from eol.figures.links import place_id

WIDTH, HEIGHT = 600, 196
STEPS = ((15, "#0072B2"), (8, "#5A9ECB"), (3, "#A6CBE3"), (1, "#DCE9F3"), (0, "#FFFFFF"))
"""Fewest defects of each step of the one blue, and its colour; white is none."""

_ROWS = {"front": (0.0, 2.4), "mid": (2.4, 7.2), "rear": (7.2, 10.4)}
_SIDES = {"right": (0.0, 1.05), "centre": (1.05, 2.55), "left": (2.55, 3.6)}
_CORNER = 0.5

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Patch:
    """One drawn area: its polygon and its zones."""

    corners: tuple[Point, ...]
    zones: tuple[ZoneCount, ...]

    @property
    def defects(self) -> int:
        """Defects of all its zones."""
        return sum(zone.defects for zone in self.zones)

    @property
    def leading(self) -> ZoneCount | None:
        """Its zone with most defects; none without a defect."""
        found = [zone for zone in self.zones if zone.defects]
        return max(found, key=lambda zone: zone.defects, default=None)


@dataclass(frozen=True, slots=True)
class Frame:
    """Where the unit's own measures lie on the sheet: one scale for both directions."""

    left: float
    top: float
    scale: float

    def put(self, point: Point) -> Point:
        """Return a point of the unit in pixels."""
        return (point[0] - self.left) * self.scale, (point[1] - self.top) * self.scale


def zone_map(zones: Zones) -> theme.Chart:
    """Return the map; every area is a link to its units.

    Args:
        zones: at least one placed zone.
    """
    patches = drawn_patches(zones.placed)
    frame, width, height = _frame(patches)
    x = alt.X("x:Q", axis=None, scale=theme.scale(domain=[0, width]))
    y = alt.Y("y:Q", axis=None, scale=theme.scale(domain=[height, 0]))
    layers = [
        *_body(x, y, width=width, height=height),
        _areas(patches, frame),
        *_words(patches, frame, x, y),
        *_sides(x, y, width=width, height=height),
    ]
    return alt.layer(*layers, width=width, height=height)


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


def step_of_blue(defects: int, *, grain: float = 1.0) -> str:
    """Return the colour of a count; where a week's counts are large, a step takes a larger grain."""
    return next(
        colour for fewest, colour in STEPS if defects >= (fewest if fewest < 2 else fewest * grain)
    )


def _grain(patches: Sequence[Patch]) -> float:
    """How much larger the steps must be so that the fullest place alone is darkest."""
    return max(1.0, max(patch.defects for patch in patches) / (2 * STEPS[0][0]))


def _cell(row: str, side: str) -> tuple[Point, ...]:
    """A cell of the body; those at its corners lose the corner."""
    (left, right), (top, bottom) = _ROWS[row], _SIDES[side]
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    cut = {("front", "right"): 0, ("rear", "right"): 1, ("rear", "left"): 2, ("front", "left"): 3}
    return _without_corner(corners, cut.get((row, side)))


def _without_corner(corners: tuple[Point, ...], which: int | None) -> tuple[Point, ...]:
    """The polygon with one corner cut off, going round in the same direction."""
    if which is None:
        return corners
    x, y = corners[which]
    beside = [_towards((x, y), corners[which - 1]), _towards((x, y), corners[(which + 1) % 4])]
    return (*corners[:which], *beside, *corners[which + 1 :])


def _towards(start: Point, end: Point) -> Point:
    """The point a corner's length away from start."""
    along = [(b > a) - (b < a) for a, b in zip(start, end, strict=True)]
    return start[0] + _CORNER * along[0], start[1] + _CORNER * along[1]


def _frame(patches: Sequence[Patch]) -> tuple[Frame, float, float]:
    """The frame that fits all patches, and the size of the sheet; a margin for the outer stroke."""
    xs = [x for patch in patches for x, _ in patch.corners]
    ys = [y for patch in patches for _, y in patch.corners]
    wide, high = max(xs) - min(xs) or 1.0, max(ys) - min(ys) or 1.0
    scale = min((WIDTH - 24) / wide, (HEIGHT - 16) / high)
    frame = Frame(min(xs) - 12 / scale, min(ys) - 8 / scale, scale)
    return frame, round(wide * scale + 24, 3), round(high * scale + 16, 3)


def _body(x: alt.X, y: alt.Y, *, width: float, height: float) -> list[theme.Layer]:
    """The unit's outline behind the zones."""
    corners = {"x": 0, "y": 0, "x2": width, "y2": height}
    body = theme.drawn([corners]).mark_rect(
        cornerRadius=26, fill="#F3F5F8", stroke=theme.LINE, strokeWidth=1
    )
    return [body.encode(x=x, x2="x2:Q", y=y, y2="y2:Q")]


def _areas(patches: Sequence[Patch], frame: Frame) -> theme.Layer:
    grain = _grain(patches)
    shapes = [
        {
            "type": "Feature",
            "geometry": {"type": "Polygon", "coordinates": [_ring(patch, frame)]},
            "fill": step_of_blue(patch.defects, grain=grain),
            "href": _target(patch),
            "spoken": _spoken(patch),
        }
        for patch in patches
    ]
    chart = theme.drawn(shapes).mark_geoshape(stroke=theme.INK, strokeWidth=1)
    return chart.encode(
        fill=alt.Fill("fill:N", scale=None),
        href=alt.Href("href:N"),
        description=alt.Description("spoken:N"),
    ).project(type="identity", scale=1, translate=[0, 0])


def _ring(patch: Patch, frame: Frame) -> list[list[float]]:
    corners = [frame.put(corner) for corner in (*patch.corners, patch.corners[0])]
    return [[round(x, 2), round(y, 2)] for x, y in corners]


def _target(patch: Patch) -> str:
    return "#" + place_id("zone", patch.leading.zone) if patch.leading else "#zones"


def _spoken(patch: Patch) -> str:
    found = [f"{zone.title} {zone.defects}" for zone in patch.zones if zone.defects]
    return ", ".join(found) or "no defect"


def _words(patches: Sequence[Patch], frame: Frame, x: alt.X, y: alt.Y) -> list[theme.Layer]:
    """The count of each area, and in the nine cells the names of its zones under it."""
    grain = _grain(patches)
    cells = not any(zone.outline for patch in patches for zone in patch.zones)
    counts = [_count(p, frame, lift=9 if cells else 0, grain=grain) for p in patches]
    names = list(_names(patches, frame, grain)) if cells else []
    ink = alt.Color("ink:N", scale=None)
    number = theme.drawn(counts).mark_text(fontWeight="bold")
    name = theme.drawn(names).mark_text(fontSize=12, limit=150)
    layers = [
        number.encode(
            x=x, y=y, text=alt.Text("words:N"), color=ink, size=alt.Size("size:Q", scale=None)
        )
    ]
    return layers + ([name.encode(x=x, y=y, text=alt.Text("words:N"), color=ink)] if names else [])


def _count(patch: Patch, frame: Frame, *, lift: float, grain: float) -> dict[str, Any]:
    (x, y), size = _middle(patch, frame)
    return {
        "x": x,
        "y": y - lift,
        "words": str(patch.defects),
        "size": size if patch.defects else min(size, 12.0),
        "ink": _ink(patch.defects, grain) if patch.defects else theme.MUTED,
    }


def _middle(patch: Patch, frame: Frame) -> tuple[Point, float]:
    """Where a patch's number stands, and how large it may be."""
    corners = [frame.put(corner) for corner in patch.corners]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    digits = len(str(patch.defects))
    room = min(0.8 * high, 0.8 * wide, 1.6 * wide / digits)
    return _centroid(corners), round(max(10.0, min(22.0, room)), 1)


def _centroid(corners: list[Point]) -> Point:
    """The centre of gravity of a polygon, whichever way it winds; of a line its first point."""
    area = across = down = 0.0
    for (x, y), (next_x, next_y) in zip(corners, corners[1:] + corners[:1], strict=True):
        cross = x * next_y - next_x * y
        area += cross
        across += (x + next_x) * cross
        down += (y + next_y) * cross
    return (round(across / (3 * area), 2), round(down / (3 * area), 2)) if area else corners[0]


def _names(patches: Iterable[Patch], frame: Frame, grain: float) -> Iterable[dict[str, Any]]:
    for patch in patches:
        found = sorted((z for z in patch.zones if z.defects), key=lambda z: -z.defects)
        if found:
            (x, y), _ = _middle(patch, frame)
            several = " · ".join(f"{zone.title} {zone.defects}" for zone in found[:2])
            words = found[0].title if len(found) == 1 else several
            yield {"x": x, "y": y + 11, "words": words, "ink": _ink(patch.defects, grain)}


def _ink(defects: int, grain: float) -> str:
    return theme.WHITE if defects >= STEPS[0][0] * grain else theme.INK


def _sides(x: alt.X, y: alt.Y, *, width: float, height: float) -> list[theme.Layer]:
    """Front and sides in words: a map without them is read the wrong way round."""
    front = theme.drawn([{"x": 0, "y": height / 2, "words": "front"}])
    sides = theme.drawn(
        [
            {"x": width, "y": height * 0.16, "words": "right"},
            {"x": width, "y": height * 0.84, "words": "left"},
        ]
    )
    return [
        front.mark_text(angle=270, dy=-9, fontSize=13, color=theme.MUTED).encode(
            x=x, y=y, text=alt.Text("words:N")
        ),
        sides.mark_text(align="left", dx=6, fontSize=13, color=theme.MUTED).encode(
            x=x, y=y, text=alt.Text("words:N")
        ),
    ]
