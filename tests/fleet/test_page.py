"""The page of a fleet says the same as its facts, in one file that needs no network."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from eol.errors import ReportError
from eol.fleet.facts import FleetFacts
from eol.fleet.page import build_fleet_page, write_fleet_page
from eol.fleet.rising import Change, Rising, RisingCode, spans_until

CLOCK = datetime(2026, 9, 14, 5, 30, tzinfo=UTC)
TEST: dict[str, object] = {
    "test": "water",
    "tested": 200,
    "passed_first": 180,
    "ftt": 0.9,
    "low": 0.85,
    "high": 0.934,
    "defects": 22,
    "dphu": 11.0,
    "dphu_low": 6.2,
    "dphu_high": 15.8,
}
ROOT: dict[str, object] = {
    "root_code": "LEAK",
    "title": "Water <enters>",
    "severity": "A",
    "safety_related": True,
    "plants": 2,
    "defects": 44,
    "units": 40,
    "per_100": 11.0,
    "share": 1.0,
    "cumulative_share": 1.0,
}


def change(plant: str) -> Change:
    """A code that rises in a plant."""
    return Change(plant, "water", "LEAK", None, True, 9, 100, 1, 400, 36.0, 5.0, None, 0.001, True)


@pytest.fixture(scope="module")
def facts() -> FleetFacts:
    """Two plants that leak more and more."""
    rising = Rising(
        spans_until(date(2026, 9, 14)),
        (RisingCode("water", "LEAK", None, True, ("P1", "P2"), ()),),
        (change("P1"), change("P2")),
        2,
    )
    return FleetFacts(
        first=date(2026, 8, 18),
        last=date(2026, 9, 14),
        clocks=(("P1", CLOCK), ("P2", None)),
        tests=({"plant": "P1", **TEST}, {"plant": "P2", **TEST}),
        pareto=(ROOT,),
        roots=({"plant": "P1", **ROOT}, {"plant": "P2", **ROOT}),
        rising=rising,
    )


@pytest.fixture(scope="module")
def page(facts: FleetFacts) -> str:
    """Its page."""
    return build_fleet_page(facts)


def test_page_tells_what_rises(page: str) -> None:
    """The plants and the counts behind a rise are told in words; safety is said."""
    assert "1 code rising in several plants" in page
    assert "P1 (9 of 100, before 1 of 400) and P2" in page
    assert "LEAK (water, safety-related)" in page


def test_page_has_every_figure_as_a_table(page: str) -> None:
    """FTT, DPHU, the Pareto and the rates by plant stand in tables, texts of the plant escaped."""
    assert re.findall(r"<h2 id=\"h-\w+\">([^<]*)", page)[1:] == [
        "Tests by plant",
        "Defects over all plants by code",
        "Defects per 100 units by code and plant",
        "Codes that moved",
    ]
    assert "Water &lt;enters&gt;" in page
    assert "90.0%" in page


def test_page_says_the_cautions(page: str) -> None:
    """Up to when data was received, and that a missing record is not a pass."""
    assert (
        "From data received up to Mon 14 Sep 2026 05:30 UTC. A missing record is not a pass."
        in page
    )
    assert "P2: nothing received" in page


def test_page_needs_no_network(page: str) -> None:
    """No script and no address but those of SVG."""
    assert "<script" not in page
    addresses = set(re.findall(r"https?://[^\"' ]+", page))
    assert addresses <= {"http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"}


def test_page_of_no_data(facts: FleetFacts) -> None:
    """Plants that have tested nothing make a page that says so."""
    from dataclasses import replace

    nothing = replace(facts.rising, codes=(), changes=(), compared=0)
    text = build_fleet_page(replace(facts, tests=(), pareto=(), roots=(), rising=nothing))
    assert "No code rises beyond chance" in text
    assert text.count("None.") == 4


def test_page_that_cannot_be_written(facts: FleetFacts, tmp_path: Path) -> None:
    """A folder that is not there is told; a page is written whole."""
    with pytest.raises(ReportError, match="page cannot be written"):
        write_fleet_page(facts, tmp_path / "none" / "fleet.html")
    assert write_fleet_page(facts, tmp_path / "fleet.html").read_text(encoding="utf-8")
