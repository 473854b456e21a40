"""Plants drawn at random, as counts: quiet ones, and ones with a planted rise.

Each has 10 to 30 codes of 0.05 to 6 defects a shift (their logarithms even), shifts of 350 to 450
units, 24 to 60 shifts before those looked at, three tests of 93 to 99 % that run in three bays.
Defects are Poisson in each shift, passes binomial, units fall into bays at random. Nothing else
happens in a quiet plant; in a planted one the first code has two defects a shift, and six from the
first shift looked at on.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import numpy as np

from eol.facts.bay_signals import bay_signals
from eol.facts.changed import CodeSeries, changed_codes
from eol.facts.limits import share_range

USUAL, PLANTED = 2.0, 3.0
SHIFTS = 60
TESTS = ("electrical", "water", "squeak_rattle")
FIRST = date(2026, 1, 1)


@dataclass(frozen=True)
class DrawnPlant:
    """The counts of a plant: codes by shift, units by shift, failed units by test, shift and bay."""

    before: int
    units: np.ndarray
    counts: np.ndarray
    places: tuple[tuple[int, ...], ...]
    failed: np.ndarray
    in_bay: np.ndarray


def draw_plant(rng: np.random.Generator, *, looked_at: int, planted: bool = False) -> DrawnPlant:
    """Draw a plant with so many shifts to look at."""
    codes, before = int(rng.integers(10, 31)), int(rng.integers(24, SHIFTS + 1))
    shifts = before + looked_at
    units = rng.integers(350, 451, shifts)
    means = np.exp(rng.uniform(np.log(0.05), np.log(6), codes))[:, None] * np.ones(shifts)
    if planted:
        means[0] = USUAL
        means[0, before:] *= PLANTED
    counts = rng.poisson(means * units / units.mean())
    ends = np.cumsum(units)
    places = tuple(
        tuple(sorted(int(at) for s in range(shifts) for at in _units(rng, ends, units, row, s)))
        for row in counts
    )
    in_bay = rng.multinomial(units, [1 / 3] * 3, size=(len(TESTS), shifts))
    levels = rng.uniform(0.01, 0.07, len(TESTS))
    failed = rng.binomial(in_bay, levels[:, None, None])
    return DrawnPlant(before, units, counts, places, failed, in_bay)


def _units(
    rng: np.random.Generator, ends: np.ndarray, units: np.ndarray, counts: np.ndarray, shift: int
) -> np.ndarray:
    """The places of a code's units in a shift, among all units."""
    chosen = rng.choice(units[shift], min(counts[shift], units[shift]), replace=False)
    return np.asarray(ends[shift] - chosen)


def named(plant: DrawnPlant, shift: int) -> set[tuple[str, str]]:
    """What the page of a shift names: changed and new codes, tests outside limits, bays that differ."""
    first = max(0, shift - SHIFTS)
    found = {("code", one.code) for one in changed_codes(list(_codes(plant, first, shift)))}
    found |= {("test", test) for test in _tests_outside(plant, first, shift)}
    windows = [(FIRST + timedelta(days=at), "day") for at in range(shift + 1)]
    bays = bay_signals(list(_bay_rows(plant, windows)), [], windows)
    return found | {("bay", f"{one.test} {one.name}") for one in bays}


def _codes(plant: DrawnPlant, first: int, shift: int) -> Iterator[CodeSeries]:
    start = int(plant.units[:first].sum())
    end = int(plant.units[: shift + 1].sum())
    for at, counts in enumerate(plant.counts):
        yield CodeSeries(
            test="water",
            code=f"C{at}",
            counts=tuple(counts[first : shift + 1].tolist()),
            at_risk=tuple(plant.units[first : shift + 1].tolist()),
            places=tuple(place - start for place in plant.places[at] if start < place <= end),
            seen_before=bool(counts[:first].any()),
        )


def _tests_outside(plant: DrawnPlant, first: int, shift: int) -> Iterator[str]:
    for at, test in enumerate(TESTS):
        passed = plant.units - plant.failed[at].sum(axis=1)
        size = int(plant.units[shift])
        usual = share_range(
            passed[first:shift].tolist(), plant.units[first:shift].tolist(), present=size
        )
        if usual is not None and not usual.holds(passed[shift] / size):
            yield test


def _bay_rows(plant: DrawnPlant, windows: list[tuple[date, str]]) -> Iterator[dict[str, Any]]:
    """Rows as `page/bay_history` gives them, of the last shifts."""
    for at, test in enumerate(TESTS):
        for shift in range(max(0, len(windows) - 8), len(windows)):
            day, name = windows[shift]
            for bay in range(3):
                yield {
                    "production_date": day,
                    "shift": name,
                    "test": test,
                    "station": f"S{at}",
                    "bay": "ABC"[bay],
                    "model": None,
                    "tested": int(plant.in_bay[at, shift, bay]),
                    "failed": int(plant.failed[at, shift, bay]),
                }


@dataclass(frozen=True)
class QuietResult:
    """Shifts of quiet plants, those with a new false signal, and how many signals of each kind."""

    shifts: int
    false: int
    kinds: dict[str, int]


def watch_quiet(plants: int, *, looked_at: int, seed: int) -> QuietResult:
    """Look at quiet plants; a signal is new where the shift before did not have it."""
    rng = np.random.default_rng(seed)
    shifts = false = 0
    kinds: dict[str, int] = {}
    for _ in range(plants):
        plant = draw_plant(rng, looked_at=looked_at)
        seen: set[tuple[str, str]] = set()
        for shift in range(plant.before, plant.before + looked_at):
            now = named(plant, shift)
            for kind, _ in now - seen:
                kinds[kind] = kinds.get(kind, 0) + 1
            shifts, false, seen = shifts + 1, false + bool(now - seen), now
    return QuietResult(shifts, false, kinds)


def find_planted(plants: int, *, within: int, seed: int) -> list[int]:
    """The shift, from 1, in which the planted code of each plant is named; 0 where it is not."""
    rng = np.random.default_rng(seed)
    found = []
    for _ in range(plants):
        plant = draw_plant(rng, looked_at=within, planted=True)
        shifts = range(plant.before, plant.before + within)
        found.append(next((at for at, s in enumerate(shifts, 1) if _is_named(plant, s)), 0))
    return found


def _is_named(plant: DrawnPlant, shift: int) -> bool:
    first = max(0, shift - SHIFTS)
    return any(one.code == "C0" for one in changed_codes(list(_codes(plant, first, shift))))
