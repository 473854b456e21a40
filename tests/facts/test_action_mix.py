"""Mix or process in the change after an action."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from eol.facts.action_mix import action_mix

BEFORE, KEPT_OUT, AFTER = ((date(2026, 9, day), "day") for day in (1, 2, 3))
WINDOWS = frozenset({BEFORE})


def rows(window: tuple[date, str], **models: tuple[int, int]) -> list[dict[str, Any]]:
    """Rows of `action/side` in a shift: of each model the units with the code, and the units."""
    day, shift = window
    return [
        {
            "production_date": day,
            "shift": shift,
            "model": name or None,
            "with_code": code,
            "units": n,
        }
        for name, (code, n) in models.items()
    ]


def test_fewer_of_the_worse_model() -> None:
    """Each model has it as often as before: the whole change is mix; the shift kept out has no part in it."""
    before = rows(BEFORE, WAG=(2, 100), VAN=(30, 300)) + rows(KEPT_OUT, VAN=(90, 100))
    found = action_mix(before, rows(AFTER, WAG=(6, 300), VAN=(10, 100)), WINDOWS)
    assert found is not None
    assert (found.before, found.after) == pytest.approx((0.08, 0.04))
    assert (found.mix, found.process) == pytest.approx((-0.04, 0.0))


def test_the_same_units_with_fewer() -> None:
    """Where the same was built the whole change is process."""
    found = action_mix(
        rows(BEFORE, WAG=(8, 100), VAN=(24, 300)), rows(AFTER, WAG=(4, 100), VAN=(12, 300)), WINDOWS
    )
    assert found is not None
    assert (found.mix, found.process) == pytest.approx((0.0, -0.04))


def test_a_side_without_units() -> None:
    """Nothing is taken apart where one side is empty."""
    assert action_mix([], rows(AFTER, WAG=(1, 10)), WINDOWS) is None
    assert action_mix(rows(BEFORE, WAG=(1, 10)), [], WINDOWS) is None
