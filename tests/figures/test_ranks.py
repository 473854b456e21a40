"""The codes of the last 20 shifts, drawn."""

from __future__ import annotations

from dataclasses import replace

from made_up_signals import ranked

from eol.figures.ranks import SHOWN, rank_chart
from eol.figures.svg import chart_svg


def test_eight_codes_at_most() -> None:
    """More codes than fit are left to the table."""
    svg = chart_svg(rank_chart([ranked(f"C{n}", 9, 1, 9) for n in range(12)]), name="w", label="w")
    assert [f">C{n}<" in svg for n in (SHOWN - 1, SHOWN)] == [True, False]


def test_three_ranges_of_ranks() -> None:
    """Ranks by defects, by demerits and by minutes stand side by side, a dash where there is none."""
    code = ranked("SEAM", 30, 2, 5)
    code = replace(code, by_demerits=replace(code.place_range, low=1, high=1))  # type: ignore[type-var]
    svg = chart_svg(rank_chart([code]), name="w", label="w")
    assert all(f">{words}<" in svg for words in ("defects", "demerits", "minutes", "2–5", "1", "–"))


def test_no_unit_at_risk_draws_too() -> None:
    """A rate of 0 is drawn at the left end, without an error."""
    code = replace(ranked("SEAM", 0, 1, 1), shrunk=None)
    assert "SEAM" in chart_svg(rank_chart([code]), name="w", label="w")
