"""The defects of a shift by the place on the unit."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from eol.facts.reader import Row, total, whole

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


@dataclass(frozen=True, slots=True)
class ZoneCount:
    """One zone with its defects; `place` holds its row and column seen from above.

    `outline` is the polygon seen from above, empty where the catalogue gives none; `leading`
    is the code with most defects there, null without defects.
    """

    zone: str
    title: str
    row: str | None
    side: str | None
    outline: tuple[tuple[float, float], ...]
    hv_near: bool
    defects: int
    leading: str | None


@dataclass(frozen=True, slots=True)
class Zones:
    """All zones of the catalogue that have a place, and the defects that cannot be placed."""

    placed: tuple[ZoneCount, ...]
    unplaced: tuple[ZoneCount, ...]
    without_zone: int

    @property
    def defects(self) -> int:
        """Defects with a place on the map."""
        return total(zone.defects for zone in self.placed)

    @property
    def off_map(self) -> int:
        """Defects in zones without a place, or without any zone."""
        return total(zone.defects for zone in self.unplaced) + self.without_zone


def zone_facts(found: Sequence[Row]) -> Zones:
    """Return the zones of a shift.

    Args:
        found: one row a zone: zone (null: none given), title, cell, outline, hv_near, defects,
            leading; zones of the catalogue without a defect included.
    """
    zones = [_zone(row) for row in found if row["zone"] is not None]
    zones.sort(key=lambda zone: (-zone.defects, zone.zone))
    return Zones(
        placed=tuple(zone for zone in zones if _has_place(zone)),
        unplaced=tuple(zone for zone in zones if not _has_place(zone) and zone.defects),
        without_zone=total(row["defects"] for row in found if row["zone"] is None),
    )


def _zone(row: Row) -> ZoneCount:
    parts = (row["cell"] or "").lower().split("-")
    return ZoneCount(
        zone=row["zone"],
        title=row["title"] or row["zone"],
        row=next((part for part in parts if part in ("front", "mid", "rear")), None),
        side=next((part for part in parts if part in ("left", "centre", "right")), None),
        outline=_outline(row["outline"]),
        hv_near=bool(row["hv_near"]),
        defects=whole(row["defects"]),
        leading=row["leading"],
    )


def _outline(text: str | None) -> tuple[tuple[float, float], ...]:
    numbers = [float(number) for number in _NUMBER.findall(text or "")]
    points = tuple(zip(numbers[::2], numbers[1::2], strict=False))
    return points if len(points) > 2 else ()


def _has_place(zone: ZoneCount) -> bool:
    return bool(zone.outline) or (zone.row is not None and zone.side is not None)
