"""Mix or process: a rise taken apart by what was built."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from eol.facts.changed import changed_codes
from eol.facts.code_series import CodeHistory, code_history
from eol.facts.mix import ALL_FAILS, MixShift, fail_mixes, mix_shifts, model_counts

DAYS = [(date(2026, 8, 1) + timedelta(days=day), "day") for day in range(32)]
NOW = 4
"""The last shifts, in which something else is built."""


def rows(before: int, after: int, name: str, **more: Any) -> list[dict[str, Any]]:
    """One row a shift with one number before and another in the last four shifts."""
    return [
        {"production_date": day, "shift": shift, "test": "water", "code": "A"}
        | {name: after if at >= len(DAYS) - NOW else before}
        | more
        for at, (day, shift) in enumerate(DAYS)
    ]


def history(defects: list[dict[str, Any]], spared: list[dict[str, Any]]) -> CodeHistory:
    """A code of 400 units a shift."""
    known = [{"test": "water", "code": "A", "before": True, "safety_related": False}]
    known += [known[0] | {"code": f"Q{at}"} for at in range(9)]
    ftt = rows(400, 400, "tested", settled=True)
    return code_history(DAYS, ftt=ftt, codes=defects, spared=spared, places=[], known=known)


def shifts(codes: CodeHistory, *, units: Any = (), defects: Any = ()) -> tuple[MixShift, ...]:
    """The rises of a plant taken apart."""
    return mix_shifts(codes, changed_codes(codes.series()), model_counts(units, defects))


def test_more_units_that_can_have_it() -> None:
    """Four times as many opening roofs have four times as many leaks: mix, and no changed code."""
    codes = history(rows(2, 8, "defects"), rows(320, 80, "spared"))
    (mix,) = shifts(codes)
    assert mix.mostly_mix
    assert mix.after - mix.before == pytest.approx(mix.mix + mix.process)
    assert (round(mix.at_risk_before, 1), round(mix.at_risk, 1)) == (0.2, 0.8)
    assert changed_codes(codes.series()) == ()


def test_process_is_process() -> None:
    """The same units with four times as many defects are no mix."""
    (mix,) = shifts(history(rows(2, 8, "defects"), rows(320, 320, "spared")))
    assert not mix.mostly_mix
    assert mix.process > 1


def test_mix_of_models() -> None:
    """Where all units can have a code its models are compared; the rates sum to the rise."""
    units = rows(300, 50, "tested", model="WAG", failed=0)
    units += rows(100, 350, "tested", model="VAN", failed=0)
    defects = rows(0, 0, "defects", model="WAG") + rows(2, 7, "defects", model="VAN")
    (mix,) = shifts(history(rows(2, 8, "defects"), []), units=units, defects=defects)
    assert mix.grouped_by == "models"
    assert mix.mostly_mix


def fails(wagon: int, van: int) -> MixShift | None:
    """A test's fails taken apart: 300 wagons and 100 vans a shift, in the last one the other way round.

    Of 100 wagons 2 and of 100 vans 10 failed before; now so many.
    """
    last = {"production_date": DAYS[-1][0], "shift": DAYS[-1][1], "test": "water"}
    units = rows(300, 300, "tested", model="WAG", failed=6)[:-1]
    units += rows(100, 100, "tested", model="VAN", failed=10)[:-1]
    units += [last | {"model": "WAG", "tested": 100, "failed": wagon}]
    units += [last | {"model": "VAN", "tested": 300, "failed": van}]
    found = fail_mixes(history(rows(2, 2, "defects"), []), ["water"], model_counts(units, []))
    return found[0] if found else None


def test_fails_of_a_test_by_mix() -> None:
    """Each model fails as often as before, and more of the worse one were built: all of the rise is mix."""
    mix = fails(wagon=2, van=30)
    assert mix is not None
    assert (mix.code, mix.defects, mix.units) == (ALL_FAILS, 32, 400)
    assert (mix.before, mix.after) == pytest.approx((4.0, 8.0))
    assert (mix.mix, mix.process) == pytest.approx((4.0, 0.0))
    assert mix.mostly_mix


def test_fails_of_a_test_by_process() -> None:
    """Where each model fails four times as often most of the rise is process; a fall is not taken apart."""
    mix = fails(wagon=8, van=120)
    assert mix is not None
    assert not mix.mostly_mix
    assert mix.mix + mix.process == pytest.approx(mix.after - mix.before)
    assert fails(wagon=0, van=0) is None


def test_quiet_plant_has_no_rise() -> None:
    """Without a rise nothing is taken apart."""
    assert shifts(history(rows(2, 2, "defects"), rows(320, 320, "spared"))) == ()
