"""The line for the page."""

from __future__ import annotations

from eol.demo.build import DemoResult
from eol.facts.where_to_start import where_to_start
from eol.store.connect import open_copy


def test_line(demo_plant: DemoResult) -> None:
    """S1 as the page of the telling shift says it; a quiet code has no line."""
    with open_copy(demo_plant.folder) as copy:
        line = where_to_start(copy, "WL-SEAM", zone="RR-QTR", until="2026-09-14/night")
        quiet = where_to_start(copy, "EL-CAM", until="2026-09-14/night")
    assert (line or "").startswith("sealer robot R07")
    assert "against 0 of" in (line or "")
    assert quiet is None
