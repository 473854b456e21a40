"""Everything the page says of one shift, read from the published copy; no figure is made later."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import partial
from typing import Any

from eol.facts.actions import Action, action_facts
from eol.facts.bays import Bay, bay_facts
from eol.facts.code_series import CodeHistory, code_history
from eol.facts.ftt import FttSeries, Window, ftt_series, void_counts, windows_up_to
from eol.facts.header import Header, header_facts
from eol.facts.late import GRACE, LateReport, late_reports
from eol.facts.pareto import Pareto, pareto_facts, usual_counts
from eol.facts.queue import RepairQueue, queue_facts
from eol.facts.reader import Reader, Row, rows
from eol.facts.seeing import Seeing, seeing_facts
from eol.facts.signals import Signals, shift_signals
from eol.facts.span import calendar, span_up_to
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
SHIFTS_OF_TWO_DAYS = 10
"""At least as many as two days have."""

CLOSED_SHOWN = 30
"""Days for which a closed action stays on the page."""


@dataclass(frozen=True, slots=True)
class ShiftFacts:
    """The facts behind one page; tuples are in the order in which they are shown.

    `tests` has the tests that the plan asks for and those that ran, also without a tested unit.
    `refused_rows` counts the rows of the shift's files that could not be read. `unwritten` says why
    what was computed is not in the store, empty where it is. `late` are reports of earlier shifts.
    """

    header: Header
    strip: Strip
    tests: tuple[FttSeries, ...]
    pareto: Pareto
    zones: Zones
    bays: tuple[Bay, ...]
    open_units: tuple[OpenUnit, ...]
    escapes: tuple[Escape, ...]
    safety_units: tuple[SafetyUnit, ...]
    units_with_code: tuple[UnitWithCode, ...]
    refused_rows: int
    signals: Signals = field(default_factory=Signals)
    unwritten: str = ""
    late: tuple[LateReport, ...] = ()
    actions: tuple[Action, ...] = ()
    seeing: Seeing = field(default_factory=Seeing)
    queue: RepairQueue | None = None

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
    grace: int = GRACE,
    last_date: date | None = None,
) -> ShiftFacts:
    """Read one shift's facts.

    Args:
        reader: the published copy of the store.
        production_date: the day the shift belongs to.
        shift: its name; None for what was tested between shifts on that date.
        target: the plant's targets by figure (`line_ftt`, `rty`, `dphu`).
        usual_shifts: settled shifts before this one that make its usual ranges.
        grace: seconds after a shift's end when its report is due.
        last_date: the last day told of, where it is more than one.

    Returns:
        The facts; a shift without a unit gives empty tuples and null figures.
    """
    facts = _Shift(reader, production_date, shift).facts(target or {}, usual_shifts)
    late = late_reports(reader, production_date=production_date, shift=shift, grace=grace)
    span = span_up_to(calendar(reader), last_date=last_date or production_date, shift=shift)
    return replace(
        facts,
        late=late,
        actions=action_facts(
            reader, until=span.until if span else None, closed_within=CLOSED_SHOWN
        ),
        seeing=seeing_facts(reader, span),
        queue=queue_facts(reader, span, facts.open_units),
    )


@dataclass(frozen=True, slots=True)
class _Shift:
    """One shift of one reader: the queries of `queries/page` with their parameters."""

    reader: Reader
    production_date: date
    shift: str | None

    def facts(self, target: Mapping[str, float], usual_shifts: int) -> ShiftFacts:
        # The other shifts of the first and the last day come along.
        wanted = usual_shifts + SHIFTS_OF_TWO_DAYS
        (began,) = self._rows("usual_from", shifts=wanted)
        history = self._rows("ftt_history", first_date=began["first_date"])
        present = (self.production_date, self.shift)
        windows = windows_up_to(history, present=present, usual_shifts=usual_shifts)
        line = self._rows("line_history", first_date=windows[0][0])
        tests = self._tests(history, windows)
        titles = {series.test: series.title for series in tests}
        codes = self._codes(history, windows)
        return ShiftFacts(
            header=header_facts(
                self.reader,
                production_date=self.production_date,
                shift=self.shift,
                settled=any(_key(row) == present and row["settled"] for row in line),
            ),
            strip=self._strip(line, history, windows, target),
            tests=tests,
            pareto=self._pareto(codes),
            zones=zone_facts(self._rows("zones")),
            bays=bay_facts(self._rows("bays"), titles),
            open_units=open_units(rows(self.reader.view("open_unit")), titles),
            escapes=escapes(self._rows("escapes"), titles),
            safety_units=safety_units(self._rows("safety_units"), titles),
            units_with_code=units_with_code(self._rows("units_with_code")),
            refused_rows=self._rows("rejected_rows")[0]["refused"],
            signals=self._signals(codes, history, [s.test for s in tests if s.now.below]),
        )

    def _tests(self, history: Sequence[Row], windows: Sequence[Window]) -> tuple[FttSeries, ...]:
        """The tests in the plant's order, but those neither asked for nor run of late."""
        every = [
            ftt_series(test, [row for row in history if row["test"] == test["test"]], windows)
            for test in self._rows("tests")
        ]
        ran = [any(point.tested for point in series.points) for series in every]
        return tuple(s for s, seen in zip(every, ran, strict=True) if seen or s.required)

    def _strip(
        self,
        line: Sequence[Row],
        history: Sequence[Row],
        windows: Sequence[Window],
        target: Mapping[str, float],
    ) -> Strip:
        before = set(windows[:-1])
        return strip_facts(
            next((row for row in line if _key(row) == windows[-1]), {}),
            [row for row in line if _key(row) in before and row["settled"]],
            tested_in_full=self._rows("tested_in_full")[0]["units"],
            void=void_counts(history, windows),
            target=target,
        )

    def _codes(self, history: Sequence[Row], windows: Sequence[Window]) -> CodeHistory:
        """The history of each code over the shifts of the page."""
        ask = partial(self._rows, first_date=windows[0][0])
        return code_history(
            windows,
            ftt=history,
            codes=ask("code_history"),
            spared=ask("at_risk_history"),
            places=ask("defect_places"),
            known=ask("codes_before"),
        )

    def _pareto(self, codes: CodeHistory) -> Pareto:
        present = self.reader.view(
            "pareto_by_shift", production_date=self.production_date, shift=self.shift
        )
        return pareto_facts(rows(present), usual_counts(codes.series()))

    def _signals(self, codes: CodeHistory, history: Sequence[Row], below: Sequence[str]) -> Signals:
        window = self.reader.view(
            "pareto_window", production_date=self.production_date, shift=self.shift
        )
        return shift_signals(
            partial(self._rows, first_date=codes.windows[0][0]),
            codes,
            ftt=history,
            windows=codes.windows,
            window=rows(window),
            below=below,
        )

    def _rows(self, name: str, **more: Any) -> list[Row]:
        return rows(
            self.reader.run(
                "page", name, production_date=self.production_date, shift=self.shift, **more
            )
        )


def _key(row: Row) -> Window:
    return row["production_date"], row["shift"]
