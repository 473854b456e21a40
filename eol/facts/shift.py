"""Everything the page says of one shift, read from the published copy; no figure is made later."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from eol.facts.bays import Bay, bay_facts
from eol.facts.ftt import FttSeries, ftt_series
from eol.facts.header import Header, header_facts
from eol.facts.pareto import Pareto, pareto_facts, usual_counts
from eol.facts.reader import Reader, Row, rows
from eol.facts.strip import Strip, strip_facts
from eol.facts.units import (
    Escape,
    OpenUnit,
    SafetyUnit,
    UnitWithCode,
    escapes,
    open_units,
    safety_units,
    units_with_code,
)
from eol.facts.zones import Zones, zone_facts

USUAL_SHIFTS = 60


@dataclass(frozen=True, slots=True)
class ShiftFacts:
    """The facts behind one page; tuples are in the order in which they are shown.

    `bays` and `escapes` are None where the copy holds no such view; `tests` has every test the
    plant declares, also those without a run. `fixed_without_repair` counts the loops of rule 15
    by test, of those that are not safety-related.
    """

    header: Header
    strip: Strip
    tests: tuple[FttSeries, ...]
    pareto: Pareto
    zones: Zones
    bays: tuple[Bay, ...] | None
    open_units: tuple[OpenUnit, ...]
    escapes: tuple[Escape, ...] | None
    safety_units: tuple[SafetyUnit, ...]
    units_with_code: tuple[UnitWithCode, ...]
    fixed_without_repair: Mapping[str, int]
    rejected_rows: int

    @property
    def tested(self) -> int:
        """Units tested in the shift, added over its tests."""
        return sum(series.now.tested for series in self.tests)

    @property
    def titles(self) -> dict[str, str]:
        """The title of each test, in the plant's order."""
        return {series.test: series.title for series in self.tests}


def shift_facts(
    reader: Reader,
    *,
    production_date: date,
    shift: str | None,
    target: Mapping[str, float] | None = None,
    usual_shifts: int = USUAL_SHIFTS,
) -> ShiftFacts:
    """Read one shift's facts.

    Args:
        reader: the published copy of the store.
        production_date: the day the shift belongs to.
        shift: its name; None for what was tested between shifts on that date.
        target: the plant's targets by figure (`line_ftt`, `rty`, `dphu`).
        usual_shifts: settled shifts before this one that make its usual ranges.

    Returns:
        The facts; a shift without a unit gives empty tuples and null figures.
    """
    return _Shift(reader, production_date, shift, usual_shifts).facts(target or {})


@dataclass(frozen=True, slots=True)
class _Shift:
    """One shift of one reader: the queries of `queries/page` with their parameters."""

    reader: Reader
    production_date: date
    shift: str | None
    usual_shifts: int

    def facts(self, target: Mapping[str, float]) -> ShiftFacts:
        line = self._rows("line_history", usual_shifts=self.usual_shifts)
        tests = self._tests()
        titles = {series.test: series.title for series in tests}
        known = {row["name"] for row in rows(self.reader.run("page", "known_views"))}
        return ShiftFacts(
            header=header_facts(
                self.reader,
                production_date=self.production_date,
                shift=self.shift,
                settled=any(self._is_now(row) and row["settled"] for row in line),
            ),
            strip=self._strip(line, target),
            tests=tests,
            pareto=self._pareto(tests),
            zones=zone_facts(self._rows("zones")),
            bays=bay_facts(self._rows("bays"), titles) if "bay_by_shift" in known else None,
            open_units=open_units(self._all("open_units"), titles),
            escapes=escapes(self._rows("escapes"), titles) if "escape" in known else None,
            safety_units=safety_units(self._rows("safety_units"), titles),
            units_with_code=units_with_code(self._rows("units_with_code")),
            fixed_without_repair=self._loops(known),
            rejected_rows=self._all("rejected_rows")[0]["waiting"],
        )

    def _strip(self, line: list[Row], target: Mapping[str, float]) -> Strip:
        void = self._rows("void_history", usual_shifts=self.usual_shifts)
        return strip_facts(
            next((row for row in line if self._is_now(row)), {}),
            [row for row in line if not self._is_now(row) and row["settled"]],
            tested_in_full=self._rows("tested_in_full")[0]["units"],
            void_history=[row for row in void if not self._is_now(row) and row["settled"]],
            void_now=next((row for row in void if self._is_now(row)), {}),
            target=target,
        )

    def _tests(self) -> tuple[FttSeries, ...]:
        history = self._rows("ftt_history", usual_shifts=self.usual_shifts)
        windows = [
            (row["production_date"], row["shift"])
            for row in self._rows("windows", usual_shifts=self.usual_shifts)
        ]
        return tuple(
            ftt_series(test, [row for row in history if row["test"] == test["test"]], windows)
            for test in self._all("tests")
        )

    def _pareto(self, tests: tuple[FttSeries, ...]) -> Pareto:
        history = self._rows("code_history", usual_shifts=self.usual_shifts)
        tested = {series.test: series.now.tested for series in tests}
        return pareto_facts(self._rows("pareto"), usual_counts(history, tested))

    def _loops(self, known: set[Any]) -> dict[str, int]:
        if "fail_to_clear" not in known:
            return {}
        return {row["test"]: row["loops"] for row in self._rows("fixed_without_repair")}

    def _rows(self, name: str, **more: Any) -> list[Row]:
        keys = {"production_date": self.production_date, "shift": self.shift}
        return rows(self.reader.run("page", name, **keys, **more))

    def _all(self, name: str) -> list[Row]:
        return rows(self.reader.run("page", name))

    def _is_now(self, row: Row) -> bool:
        return (row["production_date"], row["shift"]) == (self.production_date, self.shift)
