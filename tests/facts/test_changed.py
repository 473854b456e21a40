"""Changed codes: found when they rise, silent when they do not, fair to the whole list."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from drawn_plants import find_planted, watch_quiet

from eol.facts.changed import CodeSeries, changed_codes

UNITS = (400,) * 25


def code(name: str, *last: int, usual: int = 2, **more: object) -> CodeSeries:
    """A code with the usual count in each shift but the last ones."""
    counts = (usual,) * (25 - len(last)) + last
    return replace(CodeSeries("water", name, counts, UNITS), **more)


def quiet(n: int = 9) -> list[CodeSeries]:
    """Codes that do nothing."""
    return [code(f"Q{at}", 2) for at in range(n)]


def named(*series: CodeSeries) -> list[tuple[str, str, int]]:
    """What is named: code, kind and over how many shifts."""
    return [(one.code, one.kind, one.shifts) for one in changed_codes([*series, *quiet()])]


def test_quiet_plant() -> None:
    """Codes at their usual count are not named."""
    assert named() == []


def test_burst_is_named_at_once() -> None:
    """A shift far over usual is named by itself, with what is usual."""
    (one,) = changed_codes([code("A", 14), *quiet()])
    assert (one.code, one.kind, one.shifts, one.defects, one.units) == ("A", "more", 1, 14, 400)
    assert one.usual == pytest.approx(2.0, abs=0.1)


def test_slow_rise_is_named_with_its_start() -> None:
    """A code that doubles and stays up is named over the shifts of its rise."""
    (found,) = named(code("A", *[5] * 5))
    assert found == ("A", "more", 5)


def test_sum_starts_again_after_a_signal() -> None:
    """A burst some shifts ago does not name the code again once it is quiet."""
    assert named(code("A", 14, 2, 2, 2)) == []


def test_units_at_risk_count() -> None:
    """Twice as many units that can have it may have twice as many (rule 10)."""
    more_units = (100,) * 19 + (400,) * 6
    many = CodeSeries("water", "A", (1,) * 19 + (4,) * 6, more_units)
    assert named(many) == []
    assert named(replace(many, at_risk=(400,) * 25, counts=(1,) * 19 + (9,) * 6)) != []


def test_too_few_shifts() -> None:
    """With fewer than 12 shifts before nothing is named, not even a new code."""
    young = CodeSeries("water", "A", (2,) * 11 + (30,), (400,) * 12, seen_before=False)
    new = CodeSeries("water", "B", (0,) * 11 + (1,), (400,) * 12, seen_before=False)
    assert changed_codes([young, new]) == ()
    assert changed_codes([]) == ()


def test_unsettled_shifts_are_left_out() -> None:
    """Shifts without units, as unsettled ones are given, are no baseline of zeros."""
    gaps = (400, 0) * 12 + (400,)
    holes = CodeSeries("water", "A", tuple(4 if n else 0 for n in gaps), gaps)
    assert named(holes) == []


def test_new_code_is_named_as_new() -> None:
    """A code that was never seen before is new; one seen long ago is not."""
    first = code("A", 1, usual=0, seen_before=False)
    assert named(first) == [("A", "new", 1)]
    assert named(replace(first, seen_before=True)) == []


def test_rare_code_that_comes_back_too_soon() -> None:
    """Of a rare code the units between two defects tell what counts a shift cannot."""
    counts = (0,) * 10 + (1,) + (0,) * 12 + (1, 1)
    rare = CodeSeries("water", "A", counts, UNITS, places=(4100, 9598, 9603))
    (one,) = changed_codes([rare, *quiet(3)])
    assert (one.kind, one.gap) == ("sooner", 5)
    far = replace(rare, places=(4100, 9210, 9990))
    assert changed_codes([far, *quiet(3)]) == ()


def test_longer_lists_ask_for_more() -> None:
    """The same rise is named in a short list and not in one of hundreds (Benjamini-Hochberg)."""
    rise = code("A", 7)
    short, long = changed_codes([rise, *quiet(1)]), changed_codes([rise, *quiet(400)])
    assert [one.code for one in short] == ["A"]
    assert long == ()


def test_wide_spread_widens_what_is_usual() -> None:
    """A code that swings from shift to shift is not named for one more swing."""
    swing = CodeSeries("water", "A", (0, 8) * 12 + (12,), UNITS)
    steady = CodeSeries("water", "B", (4,) * 24 + (12,), UNITS)
    assert [name for name, _, _ in named(swing, steady)] == ["B"]


def test_all_zero_and_all_failed() -> None:
    """No defect at all, a defect on every unit, no unit: an answer without an error or NaN."""
    extremes = [
        CodeSeries("water", "A", (0,) * 25, UNITS),
        CodeSeries("water", "B", UNITS, UNITS),
        CodeSeries("water", "C", (0,) * 25, (0,) * 25),
    ]
    with np.errstate(all="raise", under="ignore"):
        assert changed_codes(extremes) == ()


@pytest.mark.slow
def test_quiet_plants_are_left_in_peace() -> None:
    """On quiet plants a new false signal comes in at most one shift in twenty, chance allowed for."""
    quiet = watch_quiet(40, looked_at=10, seed=11)
    assert quiet.shifts == 400
    assert quiet.false <= 20


@pytest.mark.slow
def test_planted_rises_are_named() -> None:
    """A code of two a shift that comes three times as often is named within six shifts, nine in ten."""
    found = find_planted(60, within=6, seed=12)
    assert sum(at > 0 for at in found) >= 54
