"""Codes that rise in several plants are told from those that rise by chance."""

from __future__ import annotations

from datetime import date

import polars as pl

from eol.fleet.rising import rising_codes, spans_until

SPANS = spans_until(date(2026, 9, 14))


def counts(*rows: tuple[str, str, int, int]) -> pl.DataFrame:
    """Plant, code, recent and earlier units of 1,000 and 4,000 tested."""
    names = ("plant", "code", "recent_units", "before_units")
    fixed = {"test": "water", "title": None, "safety_related": False}
    tested = {"recent_tested": 1_000, "before_tested": 4_000}
    return pl.DataFrame([{**dict(zip(names, row, strict=True)), **fixed, **tested} for row in rows])


def test_spans_do_not_meet() -> None:
    """The days before end the day before the recent ones begin."""
    assert (SPANS.before_from, SPANS.before_to) == (date(2026, 8, 11), date(2026, 9, 7))
    assert (SPANS.recent_from, SPANS.recent_to) == (date(2026, 9, 8), date(2026, 9, 14))


def test_code_that_rises_in_two_plants_goes_first() -> None:
    """Plants where it rises stand beside those that only have it."""
    found = rising_codes(
        counts(
            ("P1", "LEAK", 40, 40),
            ("P2", "LEAK", 35, 40),
            ("P3", "LEAK", 10, 40),
            ("P1", "DRAIN", 30, 20),
        ),
        SPANS,
    )
    assert [(code.code, code.rises_in, code.seen_in) for code in found.codes] == [
        ("LEAK", ("P1", "P2"), ("P3",)),
        ("DRAIN", ("P1",), ()),
    ]


def test_chance_is_corrected_for_all_pairs() -> None:
    """One pair alone with p below 0.05 rises; among forty that do not move it is no news."""
    alone = counts(("P1", "LEAK", 10, 17))
    among = pl.concat([alone, counts(*((f"P{n}", "DRAIN", 10, 40) for n in range(2, 42)))])
    assert 0.01 < rising_codes(alone, SPANS).changes[0].p < 0.05
    assert rising_codes(alone, SPANS).codes
    assert rising_codes(among, SPANS).codes == ()


def test_code_that_falls_does_not_rise() -> None:
    """A fall is a change, and no rise."""
    (change,) = rising_codes(counts(("P1", "LEAK", 0, 80)), SPANS).changes
    assert change.p < 0.05
    assert not change.rises


def test_code_never_seen_before() -> None:
    """A code that is new has no ratio and rises."""
    (change,) = rising_codes(counts(("P1", "LEAK", 9, 0)), SPANS).changes
    assert change.ratio is None
    assert change.rises


def test_nothing_to_compare() -> None:
    """No code, no plant: nothing rises."""
    assert rising_codes(counts(("P1", "A", 1, 1)).clear(), SPANS).compared == 0
