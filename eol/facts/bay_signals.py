"""Bays beside their neighbours over the last shifts, within shift and model: too good as loudly as too bad.

Units of one shift and model are alike for all bays of a test; a bay that gets the harder units is
compared on those alone. The chances are corrected for all bays, and for all codes in all bays.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from eol.facts.ftt import Window
from eol.facts.reader import Row, whole
from eol.statistics.fisher import fisher_within
from eol.statistics.mantel_haenszel import mantel_haenszel
from eol.statistics.multiple import benjamini_hochberg, holm

SHIFTS = 8
"""The last shifts that are looked at together."""

LEVEL = 0.01
"""Chance of a difference between any of the bays without a cause, from which it is told."""

FEWEST = 5
"""Units with a code in all bays under which it is not compared."""

Bay = tuple[str, str, str | None]
Stratum = tuple[Window, str | None]
Cells = Mapping[Bay, Mapping[Stratum, tuple[int, int]]]
"""Units that failed (or have the code) and tested units, by bay, shift and model."""


@dataclass(frozen=True, slots=True)
class BaySignal:
    """A bay that differs from its test's others.

    `more`: it fails more (or has more units with the code); `fewer`: fewer, too good. `expected`
    is what it would have were it like the others; `ratio` the Mantel-Haenszel odds ratio within
    shift and model, null where it has no finite value; `p` is corrected.
    """

    test: str
    name: str
    code: str | None
    kind: Literal["more", "fewer"]
    shifts: int
    failed: int
    tested: int
    others_failed: int
    others_tested: int
    expected: float
    ratio: float | None
    p: float


def bay_signals(
    units: Sequence[Row], codes: Sequence[Row], windows: Sequence[Window]
) -> tuple[BaySignal, ...]:
    """Name the bays that differ from their neighbours, those of whole tests first.

    Args:
        units: rows of `page/bay_history`.
        codes: rows of `page/bay_codes`.
        windows: the shifts of the page, oldest first; the last eight are looked at.

    Returns:
        Bays that pass or fail beyond chance (Holm over all bays), then codes that come from one bay
        (Benjamini-Hochberg over codes and bays). A bay that is named is left out of its
        neighbours' comparison: beside a blind bay the others are not too bad.

    Source:
        R. A. Fisher's exact test within strata as in `fisher_within`; N. Mantel and W. Haenszel,
        Journal of the National Cancer Institute 22 (1959).
    """
    looked_at = set(windows[-SHIFTS:])
    rows = [row for row in units if _window(row) in looked_at]
    tests = _tests(rows)
    every = [_stepwise(cells, None) for _, cells in sorted(tests.items())]
    whole_tests = [one for found in every for one in found]
    corrected = holm([one.p for one in whole_tests]).p
    named = [_with(one, p, looked_at) for one, p in zip(whole_tests, corrected, strict=True)]
    by_code = _by_code(tests, [row for row in codes if _window(row) in looked_at])
    corrected = benjamini_hochberg([one.p for one in by_code]).p
    named += [_with(one, p, looked_at) for one, p in zip(by_code, corrected, strict=True)]
    found = [one for one in named if one.p <= LEVEL]
    return tuple(sorted(found, key=lambda one: (one.code is not None, one.p, one.test, one.name)))


def _with(signal: BaySignal, p: float, looked_at: set[Window]) -> BaySignal:
    return replace(signal, p=p, shifts=len(looked_at))


def _tests(rows: Sequence[Row]) -> dict[str, dict[Bay, dict[Stratum, tuple[int, int]]]]:
    tests: dict[str, dict[Bay, dict[Stratum, tuple[int, int]]]] = {}
    for row in rows:
        cells = tests.setdefault(row["test"], {}).setdefault(_bay(row), {})
        cells[_stratum(row)] = (whole(row["failed"]), whole(row["tested"]))
    return tests


def _by_code(tests: Mapping[str, Cells], rows: Sequence[Row]) -> list[BaySignal]:
    """Compare the bays of a test by each of its codes; one comparison a code and bay."""
    having: dict[tuple[str, str], dict[tuple[Bay, Stratum], int]] = defaultdict(dict)
    for row in rows:
        having[row["test"], row["code"]][_bay(row), _stratum(row)] = whole(row["units"])
    found = []
    for (test, code), units in sorted(having.items()):
        if sum(units.values()) >= FEWEST and test in tests:
            cells = {
                bay: {s: (units.get((bay, s), 0), n) for s, (_, n) in strata.items()}
                for bay, strata in tests[test].items()
            }
            found += _stepwise(cells, code)
    return found


def _stepwise(cells: Cells, code: str | None) -> list[BaySignal]:
    """Compare each bay with the rest; leave the most different one out where it is beyond chance."""
    left = dict(cells)
    found: list[BaySignal] = []
    while len(left) > 1:
        compared = sorted((_compared(bay, left, code) for bay in sorted(left, key=str)), key=_order)
        first = compared[0]
        if first.p * len(cells) > LEVEL:
            return found + compared
        found.append(first)
        left = {bay: strata for bay, strata in left.items() if _name(bay) != first.name}
    return found


def _order(signal: BaySignal) -> tuple[float, bool]:
    """The least likely first; of two bays that mirror each other the one that fails more."""
    return signal.p, signal.kind == "fewer"


def _compared(bay: Bay, cells: Cells, code: str | None) -> BaySignal:
    tables = [_table(bay, cells, stratum) for stratum in sorted(cells[bay], key=str)]
    exact = fisher_within(tables)
    failed, tested = exact.observed, sum(sum(table[0]) for table in tables)
    others = [table[1] for table in tables]
    return BaySignal(
        test=bay[0],
        name=_name(bay),
        code=code,
        kind="more" if failed > exact.expected else "fewer",
        shifts=SHIFTS,
        failed=failed,
        tested=tested,
        others_failed=sum(bad for bad, _ in others),
        others_tested=sum(bad + good for bad, good in others),
        expected=exact.expected,
        ratio=mantel_haenszel(tables).odds_ratio,
        p=exact.p,
    )


def _table(bay: Bay, cells: Cells, stratum: Stratum) -> list[list[int]]:
    """Failed and passed units of a bay, and of the others, in one shift and model."""
    bad, units = cells[bay][stratum]
    rest = [strata.get(stratum, (0, 0)) for other, strata in cells.items() if other != bay]
    bad_2, units_2 = sum(bad for bad, _ in rest), sum(units for _, units in rest)
    return [[bad, units - bad], [bad_2, units_2 - bad_2]]


def _window(row: Row) -> Window:
    return row["production_date"], row["shift"]


def _bay(row: Row) -> Bay:
    return row["test"], row["station"], row["bay"]


def _stratum(row: Row) -> Stratum:
    return _window(row), row["model"]


def _name(bay: Bay) -> str:
    return " ".join(part for part in bay[1:] if part)
