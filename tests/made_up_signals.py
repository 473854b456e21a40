"""Made-up signals: a code or zone that changed, a bay that differs, a rise by mix."""

from __future__ import annotations

from eol.facts.bay_signals import BaySignal
from eol.facts.changed import Changed
from eol.facts.mix import MixShift
from eol.facts.ranks import RankedCode
from eol.statistics.ranks import RankRange


def changed(code: str, defects: int, **more: object) -> Changed:
    """Return a code of the water test, or a zone, that has more than usual."""
    usual = {"kind": "more", "shifts": 1, "units": 400, "usual": 2.0, "gap": None, "p": 1e-4}
    return Changed(**({"test": "water", "code": code, "defects": defects} | usual | more))  # type: ignore[arg-type]


def bay_signal(name: str, kind: str, *, code: str | None = None) -> BaySignal:
    """Return a bay of the water test that differs from its neighbours over eight shifts."""
    failed = 8 if kind == "fewer" else 60
    return BaySignal("water", name, code, kind, 8, failed, 1047, 59, 2156, 22.0, 0.3, 1e-4)  # type: ignore[arg-type]


def mix_shift(code: str) -> MixShift:
    """Return a rise of a code of the water test that comes from more units that can have it."""
    name = "units that can have it"
    return MixShift("water", code, 5, 25, 2000, 0.41, 1.25, 0.57, 0.27, name, 0.24, 0.51)


def ranked(name: str, defects: int, low: int, high: int) -> RankedCode:
    """Return a code of the last 20 shifts with its range of ranks."""
    place, rate = RankRange(low, high, 0.5), defects / 80
    ranges = {"place_range": place, "rank_range": place, "by_rate": None}
    return RankedCode(
        **ranges,
        test="water",
        code=name,
        title=name,
        defects=defects,
        at_risk=8000,
        per_100=rate,
        low=0.8 * rate,
        high=1.3 * rate,
        shrunk=rate,
        place=low,
        rank=low,
        by_demerits=None,
        by_minutes=None,
        demerits=0.0,
        minutes=None,
    )
