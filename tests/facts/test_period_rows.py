"""Rows of shifts added up."""

from __future__ import annotations

from datetime import date

import polars as pl
import pytest

from eol.facts.period_rows import added, history_of
from eol.statistics.proportion import wilson
from eol.statistics.rate import dphu_interval

MONDAY, TUESDAY = date(2026, 9, 14), date(2026, 9, 15)
WEEK = pl.col("production_date").dt.truncate("1w")


class Rows:
    """Gives the same rows whatever is asked."""

    def __init__(self, **frames: pl.DataFrame) -> None:
        self.frames = frames

    def run(self, folder: str, name: str, /, **values: object) -> pl.DataFrame:
        """Return the frame of that name."""
        return self.frames[name]

    def view(self, name: str, /, **equals: object) -> pl.DataFrame:
        """Return the frame of that name."""
        return self.frames[name]


def ftt(day: date, tested: int, passed: int, *, settled: bool = True) -> dict[str, object]:
    """Return one row of a shift."""
    counts = dict.fromkeys(("presented", "pending", "void_runs", "aborted_runs", "retested"), 1)
    row = {"production_date": day, "shift": "day", "crew": "A", "test": "water", "starts_at": None}
    return row | counts | {"tested": tested, "passed_first": passed, "settled": settled, "ftt": 0.0}


def test_shares_are_made_anew_from_the_sums() -> None:
    """A week's FTT is its units' share with its own interval, never a mean of shares."""
    rows = Rows(ftt_history=pl.DataFrame([ftt(MONDAY, 10, 9), ftt(TUESDAY, 30, 21, settled=False)]))
    (week,) = history_of(rows, "page", "ftt_history", WEEK, {}).to_dicts()
    rate = wilson(30, 40)
    assert (week["production_date"], week["shift"], week["settled"]) == (MONDAY, None, False)
    assert (week["ftt"], week["low"], week["high"]) == (rate.value, rate.low, rate.high)


def line(day: date, built: int, through: int, failed: int, defects: int) -> dict[str, object]:
    """Return one cohort."""
    undecided = built - through - failed
    row = {"production_date": day, "shift": "day", "settled": True, "built": built}
    row |= {"went_through": through, "failed_one": failed, "undecided": undecided}
    return row | {"defects": defects}


def yields(day: date, test: str, tested: int, passed: int, squares: int) -> dict[str, object]:
    """Return what a cohort gave in a test."""
    row = {"production_date": day, "shift": "day", "test": test, "tested": tested}
    return row | {"passed": passed, "squares": squares}


def week_of(*lines: dict[str, object], gave: list[dict[str, object]]) -> dict[str, object]:
    """Return the week that some cohorts make."""
    rows = Rows(line_history=pl.DataFrame(lines), build_yields=pl.DataFrame(gave))
    return history_of(rows, "page", "line_history", WEEK, {}).to_dicts()[0]


def test_line_is_made_anew_from_the_sums() -> None:
    """RTY is the product of the tests' own shares over the week, DPHU has the week's own interval."""
    gave = [yields(MONDAY, "e", 10, 9, 4), yields(MONDAY, "w", 10, 8, 4)]
    gave += [yields(TUESDAY, "e", 30, 30, 9), yields(TUESDAY, "w", 30, 27, 9)]
    week = week_of(line(MONDAY, 10, 7, 3, 3), line(TUESDAY, 30, 27, 3, 5), gave=gave)
    dphu = dphu_interval(40, 8, 13)
    assert week["ftt"] == pytest.approx(34 / 40)
    assert week["rty"] == pytest.approx((39 / 40) * (35 / 40))
    assert (week["dphu"], week["dphu_low"], week["dphu_high"]) == (dphu.value, dphu.low, dphu.high)


def test_no_line_ftt_while_too_many_are_undecided() -> None:
    """More than one in twenty undecided: no share, but its worst and best (rule 11)."""
    gave = [yields(MONDAY, "w", 0, 0, 0)]
    week = week_of(line(MONDAY, 40, 30, 7, 0), gave=gave)
    assert (week["ftt"], week["rty"]) == (None, None)
    assert (week["worst"], week["best"]) == (30 / 40, 33 / 40)


def test_zone_keeps_the_code_that_led_where_most_were() -> None:
    """Defects of a zone add up; a zone without any stays on the map."""
    place = {"title": "Tail", "cell": None, "outline": None, "hv_near": False}
    one = pl.DataFrame([{"zone": "T", **place, "defects": 2, "leading": "A"}])
    two = pl.DataFrame([{"zone": "T", **place, "defects": 5, "leading": "B"}])
    (zone,) = added("zones", [one, two]).to_dicts()
    assert (zone["defects"], zone["leading"]) == (7, "B")


def test_released_units_are_not_told_again() -> None:
    """A unit that the last shift knows nothing of any more is left out; the others stand once."""
    columns = {"vin": ["U1", "U2"], "test": ["w", "w"], "in_shift": [True, True]}
    last = pl.DataFrame({"vin": ["U1"], "test": ["w"], "in_shift": [False]})
    told = added("safety_units", [pl.DataFrame(columns), last])
    assert told.to_dicts() == [{"vin": "U1", "test": "w", "in_shift": True}]


def test_nothing_stays_nothing() -> None:
    """Shifts without rows give an empty frame with its columns."""
    empty = pl.DataFrame(schema={"vin": pl.String})
    assert added("escapes", [empty, empty]).columns == ["vin"]
