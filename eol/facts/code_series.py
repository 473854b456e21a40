"""The history of each code over the shifts of the page: its defects, and the units that can have it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from eol.facts.changed import CodeSeries
from eol.facts.ftt import Window
from eol.facts.reader import Row, total, whole

Code = tuple[str, str]
"""A test and a code of it."""


@dataclass(frozen=True, slots=True)
class CodeHistory:
    """Rows of `queries/page` about codes, over the shifts of the page.

    Attributes:
        windows: the shifts, oldest first, the present one last.
        tested: units of each test in each settled shift and in the present one.
        counts: defects of each code in each shift.
        spared: units that cannot have the code (rule 10), where not all can.
        places: places of its units in the order of testing of each shift.
        known: row of `page/codes_before` by code.
    """

    windows: tuple[Window, ...]
    tested: Mapping[tuple[str, Window], int]
    counts: Mapping[tuple[Code, Window], int]
    spared: Mapping[tuple[Code, Window], int]
    places: Mapping[tuple[Code, Window], Sequence[int]]
    known: Mapping[Code, Row]

    def series(self, *, crude: bool = False) -> tuple[CodeSeries, ...]:
        """Return every code's history on its units at risk, or on all tested units where crude."""
        return tuple(self._of(code, crude) for code in sorted(self.known))

    def units(self, code: Code, window: Window, *, crude: bool = False) -> int:
        """Units at risk of a code in a shift, all tested ones where crude; 0 where unsettled."""
        tested = self.tested.get((code[0], window), 0)
        return tested if crude or not tested else tested - self.spared.get((code, window), 0)

    def _of(self, code: Code, crude: bool) -> CodeSeries:
        units = [self.units(code, window, crude=crude) for window in self.windows]
        row = self.known[code]
        return CodeSeries(
            test=code[0],
            code=code[1],
            counts=tuple(
                self.counts.get((code, window), 0) if at_risk else 0
                for window, at_risk in zip(self.windows, units, strict=True)
            ),
            at_risk=tuple(units),
            places=self._places(code, units),
            seen_before=bool(row["before"]),
            safety_related=bool(row["safety_related"]),
        )

    def _places(self, code: Code, units: Sequence[int]) -> tuple[int, ...]:
        """Places among all units at risk; among those of a shift the tested ones are spread evenly."""
        found: list[int] = []
        before = 0
        for window, at_risk in zip(self.windows, units, strict=True):
            tested = self.tested.get((code[0], window), 0)
            for place in self.places.get((code, window), ()) if at_risk else ():
                found.append(before + max(1, round(place * at_risk / tested)))
            before += at_risk
        return tuple(sorted(set(found)))


def code_history(
    windows: Sequence[Window],
    *,
    ftt: Sequence[Row],
    codes: Sequence[Row],
    spared: Sequence[Row],
    places: Sequence[Row],
    known: Sequence[Row],
) -> CodeHistory:
    """Gather the histories of all codes.

    Args:
        windows: the shifts, oldest first, the present one last.
        ftt: rows of `page/ftt_history`.
        codes: rows of `page/code_history`.
        spared: rows of `page/at_risk_history`.
        places: rows of `page/defect_places`.
        known: rows of `page/codes_before`.
    """
    in_order: dict[tuple[Code, Window], list[int]] = {}
    for row in places:
        in_order.setdefault((_code(row), _window(row)), []).append(whole(row["place"]))
    return CodeHistory(
        windows=tuple(windows),
        tested={
            (row["test"], _window(row)): whole(row["tested"])
            for row in ftt
            if row["settled"] or _window(row) == windows[-1]
        },
        counts={(_code(row), _window(row)): whole(row["defects"]) for row in codes},
        spared={(_code(row), _window(row)): whole(row["spared"]) for row in spared},
        places=in_order,
        known={_code(row): row for row in known},
    )


def zone_series(
    windows: Sequence[Window], *, ftt: Sequence[Row], zones: Sequence[Row]
) -> tuple[CodeSeries, ...]:
    """Return the history of each zone over all tests, on the units of the test with most of them.

    Args:
        windows: the shifts, oldest first, the present one last.
        ftt: rows of `page/ftt_history`.
        zones: rows of `page/zone_history`.
    """
    tested: dict[Window, int] = {}
    for row in ftt:
        if row["settled"] or _window(row) == windows[-1]:
            tested[_window(row)] = max(tested.get(_window(row), 0), whole(row["tested"]))
    counts = {(row["zone"], _window(row)): whole(row["defects"]) for row in zones}
    units = tuple(tested.get(window, 0) for window in windows)
    return tuple(
        CodeSeries(
            test="",
            code=zone,
            counts=tuple(
                counts.get((zone, window), 0) if n else 0
                for window, n in zip(windows, units, strict=True)
            ),
            at_risk=units,
        )
        for zone in sorted({zone for zone, _ in counts})
        if total(units[:-1])
    )


def _code(row: Row) -> Code:
    return row["test"], row["code"]


def _window(row: Row) -> Window:
    return row["production_date"], row["shift"]
