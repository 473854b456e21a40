"""Edges in words, sets taken whole, and what a good check proves."""

from __future__ import annotations

import polars as pl
import pytest

from eol.errors import UsageError
from eol.facts.contain_edges import by_sequence, edge_words, lower_bound, whole_set
from eol.facts.contain_question import ContainQuestion

UNITS = pl.DataFrame(
    {
        "vin": [f"U{n:03d}" for n in range(200)],
        "build_seq": range(1000, 1200),
        "model": ["WAG"] * 200,
    }
)
LEAK = ContainQuestion("LEAK", vins=("U034", "U041", "U052"))


def test_words() -> None:
    """From where to where, how many, why, and what the margin rests on."""
    found = by_sequence(UNITS, set(LEAK.vins), LEAK, safety_related=False)
    assert edge_words(found.edges[0]) == (
        "1016 to 1070: 55 units, 3 of them confirmed",
        "begins there: margin of 18 units at risk; ends there: margin of 18 units at risk",
        "the margin rests on 16 per hundred units, seen between the confirmed units",
    )


def test_safety_related_codes_are_taken_cautiously() -> None:
    """The margin rests on the lower bound of the share, the risk on its upper one."""
    (edge,) = by_sequence(UNITS, set(LEAK.vins), LEAK, safety_related=True).edges
    assert (edge.share or 0) < 3 / 19 < (edge.risk_share or 0)
    assert (edge.margin or 0) > 18
    assert edge.first_reason == "first unit on record"


def test_all_units_have_it() -> None:
    """Every unit from first to last has the fault: still a margin, no error."""
    (edge,) = by_sequence(UNITS[:5], set(UNITS["vin"][:5]), LEAK, safety_related=False).edges
    assert (edge.units, edge.confirmed, edge.risk_share) == (5, 5, 1.0)


def test_no_place() -> None:
    """Confirmed units without a build sequence have no place."""
    bare = UNITS.with_columns(build_seq=pl.lit(None, dtype=pl.Int64))
    with pytest.raises(UsageError, match="no confirmed unit is among"):
        by_sequence(bare, set(LEAK.vins), LEAK, safety_related=False)


def test_whole_set() -> None:
    """A lot is suspect whole; with nobody tested its share is not told; an empty one is refused."""
    told = {"reason": "lot L", "safety_related": False}
    (edge,) = whole_set(UNITS, set(LEAK.vins), tested=100, **told).edges  # type: ignore[arg-type]
    assert (edge.units, edge.confirmed, edge.risk_share, edge.margin) == (200, 3, 0.03, None)
    (edge,) = whole_set(UNITS, set(), tested=0, **told).edges  # type: ignore[arg-type]
    assert edge.risk_share is None
    with pytest.raises(UsageError, match="no unit has lot L"):
        whole_set(UNITS[:0], set(), tested=0, **told)  # type: ignore[arg-type]


def test_lower_bound() -> None:
    """No good check proves nothing; forty of forty prove 93 of 100."""
    assert lower_bound(0, 5) == 0
    assert lower_bound(40, 40) == pytest.approx(0.928, abs=0.001)
