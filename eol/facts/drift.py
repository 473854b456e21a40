"""Conditions on their way to a limit: how hard a test was, bay by bay, before its passes are void.

A moving average over the readings of the shift is held against what was usual for the bay. It is
told once it has used up half of the way from there to the limit (rule 4 makes passes void beyond).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median
from typing import Any

from eol.facts.ftt import Window
from eol.facts.reader import Reader, Row, rows
from eol.facts.span import Span
from eol.statistics.ewma import drift_to_limit, ewma

LEAST_SHIFTS = 6
"""Shifts before the present one without which it is not known what is usual."""

USED_UP = 0.5
"""Share of the way from the usual level to the limit from which a drift is told."""

LOOKED_BACK = 8
"""Shifts whose readings give the trend."""

Place = tuple[str, str, str | None, str]
"""Test, station, bay and name of a condition."""


@dataclass(frozen=True, slots=True)
class Drift:
    """A condition of a bay that moved toward a limit.

    Attributes:
        level: its moving average at the end of the shift, `usual` the median of the shifts before.
        side: `lower` or `upper`: which limit it goes to; `limit` is that limit.
        beyond: whether the level lies beyond it.
        since: the shift from which it is there.
        readings: readings of the shift.
        runs_left: runs until it meets the limit by the trend since then; None where none is clear.
    """

    test: str
    station: str
    bay: str | None
    name: str
    measure_unit: str
    level: float
    usual: float
    side: str
    limit: float
    since: Window
    readings: int
    runs_left: int | None

    @property
    def beyond(self) -> bool:
        """True where the moving average lies beyond the limit."""
        return self.level < self.limit if self.side == "lower" else self.level > self.limit


def drifts(reader: Reader, span: Span) -> tuple[Drift, ...]:
    """Return the conditions that have used up half of the way to a limit, the nearest first.

    Args:
        reader: the published copy of the store.
        span: the shifts that make the usual level, the present one last.

    Source:
        S. W. Roberts, Technometrics 1 (1959), pages 239-250.
    """
    history: dict[Place, list[Row]] = defaultdict(list)
    for row in rows(reader.run("seeing", "condition_history", **span.bounds)):
        history[row["test"], row["station"], row["bay"], row["name"]].append(row)
    found = [_drift(reader, span, place, told) for place, told in history.items()]
    moved = [one for one in found if one is not None]
    return tuple(sorted(moved, key=lambda one: (-_used_up(one), one.test, one.station, one.name)))


def _drift(reader: Reader, span: Span, place: Place, told: Sequence[Row]) -> Drift | None:
    """Judge one condition: by its shift means first, by its readings where these have moved."""
    order = [shift.window for shift in span.shifts]
    in_order = sorted(
        (row for row in told if _window(row) in order), key=lambda row: order.index(_window(row))
    )
    before = [row for row in in_order if _window(row) != order[-1]]
    if len(before) < LEAST_SHIFTS or len(before) == len(in_order):
        return None
    usual = median(row["mean"] for row in before)
    now = in_order[-1]
    if _gone(now, usual, now["mean"]) is None:
        return None
    return _by_readings(reader, span, place, in_order, usual)


def _by_readings(
    reader: Reader, span: Span, place: Place, in_order: Sequence[Row], usual: float
) -> Drift | None:
    test, station, bay, name = place
    asked: dict[str, Any] = {"test": test, "station": station, "bay": bay, "name": name}
    readings = rows(reader.run("seeing", "condition_run", **asked, **span.last(LOOKED_BACK).bounds))
    now = in_order[-1]
    values = [row["value"] for row in readings if _window(row) == _window(now)]
    sigma = median(row["sigma"] for row in in_order[:-1])
    trace = ewma(values, target=usual, sigma=sigma)
    level = trace.averages[-1] if trace.averages else usual
    side = _gone(now, usual, level)
    if side is None or trace.low <= level <= trace.high:
        return None
    since = _since(in_order, usual)
    begun = {_window(row) for row in in_order[since:]}
    trend = drift_to_limit(
        [row["value"] for row in readings if _window(row) in begun],
        lower=now["lower"],
        upper=now["upper"],
    )
    return Drift(
        test=test,
        station=station,
        bay=bay,
        name=name,
        measure_unit=now["measure_unit"] or "",
        level=level,
        usual=usual,
        side=side,
        limit=now[side],
        since=_window(in_order[since]),
        readings=len(values),
        runs_left=trend.runs_left if trend.limit == now[side] else None,
    )


def _gone(row: Row, usual: float, level: float) -> str | None:
    """The limit to which half of the way from the usual level is used up."""
    for side in ("lower", "upper"):
        limit = row[side]
        inside = limit is not None and (usual > limit if side == "lower" else usual < limit)
        if inside and (usual - level) / (usual - limit) >= USED_UP:
            return side
    return None


def _since(in_order: Sequence[Row], usual: float) -> int:
    """The first of the last shifts whose means all lie at least half as far off as that of the last."""
    half = (in_order[-1]["mean"] - usual) / 2
    at = len(in_order) - 1
    while at and (in_order[at - 1]["mean"] - usual) / half >= 1:
        at -= 1
    return at


def _used_up(drift: Drift) -> float:
    return (drift.usual - drift.level) / (drift.usual - drift.limit)


def _window(row: Row) -> Window:
    return row["production_date"], row["shift"]
