"""Conditions on their way to a limit, from shift means and the readings of the shift."""

from __future__ import annotations

from typing import Any

import polars as pl
from made_up_follow import span

from eol.facts.drift import Drift, drifts

LIMITS = {"lower": 220.0, "upper": 280.0}


class Readings:
    """Gives the shift means and the readings of one bay."""

    def __init__(
        self, means: list[float], *, limits: dict[str, float | None], swing: float
    ) -> None:
        self.windows = [shift.window for shift in span(len(means)).shifts]
        self.means, self.limits, self.swing = means, limits, swing

    def run(self, folder: str, name: str, /, **values: object) -> pl.DataFrame:
        """The rows of either file of queries/seeing."""
        rows: list[dict[str, Any]] = []
        for (day, shift), mean in zip(self.windows, self.means, strict=True):
            key = {"production_date": day, "shift": shift}
            if name == "condition_history":
                bay = {"test": "water", "station": "W", "bay": "B", "name": "kpa"}
                told = {"measure_unit": "kPa", "mean": mean, "sigma": 2.5, "readings": 40}
                rows.append(key | bay | told | self.limits)
            else:
                rows += [key | {"value": mean + self.swing * (at % 3 - 1)} for at in range(40)]
        return pl.DataFrame(rows)

    def view(self, name: str, /, **equals: object) -> pl.DataFrame:
        """No view is read."""
        raise NotImplementedError(name)


def found(*means: float, swing: float = 1.0, **limits: float | None) -> tuple[Drift, ...]:
    """The drifts of a bay with some shift means."""
    told: dict[str, float | None] = {**LIMITS, **limits}
    return drifts(Readings(list(means), limits=told, swing=swing), span(len(means)))


def test_filter_is_told_before_it_voids() -> None:
    """250 to 228 kPa with a limit of 220: told, with the shift in which it began."""
    (drift,) = found(*[250.0] * 8, 228.0, 228.0)
    assert (drift.side, drift.limit, drift.since[1], drift.beyond) == ("lower", 220.0, "8", False)
    assert 226 < drift.level < 230
    assert drift.runs_left is None


def test_trend_says_how_many_runs_are_left() -> None:
    """A level that falls on from shift to shift meets its limit in some runs."""
    (drift,) = found(*[250.0] * 10, 240.0, 236.0, 232.0, 228.0)
    assert drift.runs_left is not None
    assert 20 < drift.runs_left < 200


def test_beyond_and_upper_limit() -> None:
    """What is beyond says so; the upper limit counts as the lower does."""
    assert found(*[250.0] * 8, 212.0)[0].beyond
    assert found(*[250.0] * 8, 268.0)[0].side == "upper"


def test_silent_where_it_is_usual_or_unknown() -> None:
    """A small move, a move away from the only limit, few shifts and no limit: nothing is said."""
    assert found(*[250.0] * 8, 244.0) == ()
    assert found(*[250.0] * 8, 268.0, upper=None) == ()
    assert found(*[250.0] * 4, 228.0) == ()
    assert found(*[250.0] * 8, 228.0, lower=None, upper=None) == ()
