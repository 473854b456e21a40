"""Codes that have changed: more often than usual, sooner than usual, or never seen before.

A code is compared with itself, on its units at risk (rule 10), in the settled shifts before. Every
code of the list is looked at in every shift, so chance is held down over the whole list.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.special import betainc

from eol.statistics.between import units_between
from eol.statistics.cusum import CusumDesign, design_cusum
from eol.statistics.limits import LEAST_SHIFTS, MOVING_RANGE_TO_SIGMA
from eol.statistics.multiple import benjamini_hochberg

USUAL_SHIFTS = 60
LIST_RUN_LENGTH = 400
"""Shifts that the CUSUMs of the whole list run without a false signal, on average."""

LEVEL = 0.05
"""Share of false ones among the codes named in a shift (Benjamini and Hochberg)."""

FEARED = 2.0
"""A code is feared to double; what is worse is found sooner."""

RARE = 0.5
"""Usual defects a shift under which the units between defects are watched instead of a sum."""

_GAPS = 3
_UNSURE = 0.9
"""Standard error of a sigma from moving ranges: about so much of it over the root of their number."""
_GRID = 1.25
_SERIES = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class CodeSeries:
    """One code over the shifts, oldest first, the present one last.

    `at_risk` are its units at risk; `places` the positions among these of the units that had it,
    counted from the first shift; `seen_before` whether it was seen before the first shift.
    """

    test: str
    code: str
    counts: tuple[int, ...]
    at_risk: tuple[int, ...]
    places: tuple[int, ...] = ()
    seen_before: bool = True
    safety_related: bool = False

    @property
    def is_new(self) -> bool:
        """True where the present shift is the first one with the code, and enough went before."""
        before = sum(1 for units in self.at_risk[:-1] if units)
        fresh = not self.seen_before and not any(self.counts[:-1])
        return bool(fresh and self.counts and self.counts[-1] and before >= LEAST_SHIFTS)


@dataclass(frozen=True, slots=True)
class Changed:
    """One changed code.

    `defects` of `units` at risk came in the `shifts` that end with the present one; `usual` is
    what so many units usually have. `gap` is told where units between defects gave the signal.
    `p` is the chance of it without a cause, corrected for the whole list.
    """

    test: str
    code: str
    kind: Literal["more", "sooner", "new"]
    shifts: int
    defects: int
    units: int
    usual: float | None
    gap: int | None
    p: float


@dataclass(slots=True)
class _Watch:
    """The CUSUMs of a list of codes while they run over the shifts; arrays are shifts x codes."""

    counts: _SERIES
    units: _SERIES
    start: NDArray[np.intp] = field(init=False)
    total: _SERIES = field(init=False)
    _sums: dict[str, _SERIES] = field(init=False)

    def __post_init__(self) -> None:
        codes = self.counts.shape[1]
        self.start, self.total = np.zeros(codes, dtype=np.intp), np.zeros(codes)
        rates = np.divide(
            self.counts, self.units, out=np.zeros_like(self.counts), where=self.units > 0
        )
        both = (self.units[1:] > 0) & (self.units[:-1] > 0)
        ranges = np.abs(np.diff(rates, axis=0)) * np.sqrt((self.units[1:] + self.units[:-1]) / 2)
        self._sums = {
            "counts": _running(self.counts),
            "units": _running(self.units),
            "shifts": _running(self.units > 0),
            # a moving range belongs to the later of its two shifts
            "ranges": _running(np.vstack([np.zeros((1, codes)), np.where(both, ranges, 0)])),
            "pairs": _running(np.vstack([np.zeros((1, codes)), both])),
        }

    def between(self, name: str, first: NDArray[np.intp], end: NDArray[np.intp]) -> _SERIES:
        """Sum something over the shifts from first to before end, one pair a code."""
        codes = np.arange(len(first))
        return np.asarray(self._sums[name][end, codes] - self._sums[name][first, codes])

    def step(self, shift: int) -> _Step:
        """Take one more shift in and tell how likely it is without a cause, code by code."""
        start = np.where(self.total > 0, self.start, shift)
        base = _Base.of(self, np.maximum(0, start - USUAL_SHIFTS), start)
        mean = base.rate * self.units[shift] / base.spread
        designs = base.designs()
        reference = np.array([d.k if d else 0.0 for d in designs]) / base.grid * mean
        heights = np.array([d.h if d else np.inf for d in designs])
        watched, seen = np.isfinite(heights), self.counts[shift] > 0
        risen = self.total + self.counts[shift] / base.spread - reference
        self.start, self.total = start, np.where(watched, np.maximum(0, risen), 0.0)
        alone = base.chance(self.counts[shift], self.units[shift])
        upto = np.full_like(start, shift + 1)
        run = base.chance(self.between("counts", start, upto), self.between("units", start, upto))
        run = np.where(seen & (self.total >= heights), run, 1.0)
        return _Step(base, start, alone, run)


@dataclass(frozen=True, slots=True)
class _Base:
    """What is usual for each code: the shifts before its present rise, the present one left out."""

    counts: _SERIES
    units: _SERIES
    known: NDArray[np.bool_]
    rate: _SERIES
    spread: _SERIES
    per_shift: _SERIES
    listed: int

    @classmethod
    def of(cls, watch: _Watch, first: NDArray[np.intp], end: NDArray[np.intp]) -> _Base:
        """Sum up the shifts from first to before end."""
        counts, units = watch.between("counts", first, end), watch.between("units", first, end)
        shifts = watch.between("shifts", first, end)
        inner = np.minimum(first + 1, end)
        ranges, pairs = watch.between("ranges", inner, end), watch.between("pairs", inner, end)
        rate = (counts + 0.5) / np.maximum(units, 1)
        sigma = ranges / np.maximum(pairs, 1) / np.sqrt(rate) / MOVING_RANGE_TO_SIGMA
        return cls(
            counts=counts,
            units=units,
            known=shifts >= LEAST_SHIFTS,
            rate=rate,
            # Shifts that spread wider than chance alone widen what is usual; they never narrow it.
            spread=np.maximum(1.0, sigma * (1 - _UNSURE / np.sqrt(np.maximum(pairs, 1)))) ** 2,
            per_shift=rate * units / np.maximum(shifts, 1),
            listed=len(counts),
        )

    @property
    def grid(self) -> _SERIES:
        """The usual count a shift, on a grid, so that few designs serve all codes."""
        mean = np.maximum(self.per_shift / self.spread, RARE / 2)
        return np.asarray(_GRID ** np.round(np.log(mean) / np.log(_GRID)))

    def designs(self) -> list[CusumDesign | None]:
        """The CUSUM of each code; None where the code is too rare or too little is known."""
        watched = self.known & (self.per_shift >= RARE)
        steps = np.round(np.log(self.grid) / np.log(_GRID)).astype(int)
        pairs = zip(steps.tolist(), watched.tolist(), strict=True)
        return [_design(step, _round_up(self.listed)) if on else None for step, on in pairs]

    def chance(self, counts: _SERIES, units: _SERIES) -> _SERIES:
        """Chance of at least so many defects on so many units, one a code; 1 where unknown.

        Source: the predictive distribution of A. Gelman and others, "Bayesian Data Analysis",
            third edition, section 2.6, under the Jeffreys prior; counts over their spread.
        """
        share = units / np.maximum(units + self.units, 1)
        seen = counts / self.spread
        shape = self.counts / self.spread + 0.5
        tail = betainc(np.maximum(seen, 1e-9), shape, np.clip(share, 0, 1))
        return np.where(self.known & (counts > 0), tail, 1.0)


@dataclass(frozen=True, slots=True)
class _Step:
    """One shift: what was usual, where each rise began, and the chances alone and since then."""

    base: _Base
    start: NDArray[np.intp]
    alone: _SERIES
    run: _SERIES

    @property
    def chances(self) -> _SERIES:
        """One chance a code: the smaller of two looks, twice."""
        return np.asarray(np.minimum(1.0, 2 * np.minimum(self.alone, self.run)))


def changed_codes(series: Sequence[CodeSeries], *, level: float = LEVEL) -> tuple[Changed, ...]:
    """Name the codes that have changed in the present shift, the least likely by chance first.

    Args:
        series: every code of the plant's list, all over the same shifts; no units where unsettled.
        level: share of false ones among the named.

    Returns:
        New codes; codes of which the present shift alone, or the rise that ends with it, or the
        units between its defects are beyond chance. None with fewer than 12 shifts before.

    Source:
        CUSUM: J. M. Lucas, Technometrics 27 (1985), run length of the list 400 shifts, started
        again after a signal; rare codes: M. Xie, T. N. Goh and P. Ranjan, Reliability Engineering
        and System Safety 77 (2002); the list: Y. Benjamini and Y. Hochberg, Journal of the Royal
        Statistical Society B 57 (1995).

    Example:
        >>> quiet = CodeSeries("water", "A", (2,) * 24 + (3,), (400,) * 25)
        >>> loud = CodeSeries("water", "B", (2,) * 24 + (12,), (400,) * 25)
        >>> [(changed.code, changed.kind) for changed in changed_codes([quiet, loud])]
        [('B', 'more')]
    """
    if not series or not series[0].counts:
        return ()
    counts = np.array([each.counts for each in series], dtype=float).T
    watch = _Watch(counts, np.array([each.at_risk for each in series], dtype=float).T)
    last = len(counts) - 1
    for shift in range(last):
        chances = watch.step(shift).chances
        for place in benjamini_hochberg(chances).named(level):
            watch.total[place] = 0.0
    step = watch.step(last)
    gaps = [_gap(each, step.base, place) for place, each in enumerate(series)]
    chances = np.minimum(step.chances, [min(1.0, 2 * p) for p, _ in gaps])
    corrected = benjamini_hochberg(chances)
    named = set(corrected.named(level))
    found = [
        _changed(each, step, place, gaps[place], corrected.p[place])
        for place, each in enumerate(series)
        if place in named or each.is_new
    ]
    return tuple(sorted(found, key=lambda one: (one.kind == "new", one.p, one.test, one.code)))


def _changed(
    series: CodeSeries, step: _Step, place: int, gap: tuple[float, int | None], p: float
) -> Changed:
    """Tell a named code by the look that is the least likely by chance."""
    alone, run = step.alone[place], step.run[place]
    since = int(step.start[place]) if run < alone else len(series.counts) - 1
    units = sum(series.at_risk[since:])
    sooner = gap[0] < min(alone, run)
    return Changed(
        test=series.test,
        code=series.code,
        kind="new" if series.is_new else "sooner" if sooner else "more",
        shifts=len(series.counts) - since,
        defects=sum(series.counts[since:]),
        units=units,
        usual=None if series.is_new else float(step.base.rate[place] * units),
        gap=gap[1] if sooner and not series.is_new else None,
        p=p,
    )


def _gap(series: CodeSeries, base: _Base, place: int) -> tuple[float, int | None]:
    """The chance of defects so close together, of one to three gaps that end in this shift."""
    rare = series.safety_related or base.per_shift[place] < RARE
    before = sum(series.at_risk[:-1])
    if not rare or not base.known[place] or not series.places or series.places[-1] <= before:
        return 1.0, None
    looks = []
    for events in range(1, min(_GAPS, len(series.places) - 1) + 1):
        earlier = series.places[-1 - events]
        known = len(series.places) - events
        share = min(1.0, (known + 0.5) / max(earlier, 1))
        (found,) = units_between(series.places[-1 - events :], share=share, events=events)
        looks.append((min(1.0, _GAPS * found.p), found.units))
    return min(looks, default=(1.0, None))


@lru_cache(maxsize=512)
def _design(step: int, codes: int) -> CusumDesign:
    mean = _GRID**step
    return design_cusum(mean, FEARED * mean, shifts_between_false=LIST_RUN_LENGTH * codes)


def _round_up(codes: int) -> int:
    """Lists of nearly the same length share their designs."""
    return max(10, 10 * -(-codes // 10))


def _running(values: NDArray[np.bool_] | _SERIES) -> _SERIES:
    """Running sums over the shifts, with a row of zeros before the first."""
    zeros = np.zeros((1, values.shape[1]))
    return np.vstack([zeros, np.cumsum(values, axis=0, dtype=float)])
