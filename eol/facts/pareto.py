"""The defects of a shift by code, with what is usual for each code."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from eol.facts.ftt import Window
from eol.facts.limits import Usual, rate_range
from eol.facts.reader import Row, total, whole

SHOWN_CODES = 8


@dataclass(frozen=True, slots=True)
class ParetoRow:
    """One code of one test: its defects, the units with it, the units that can have it (rule 10).

    `severity` is the worst seen, null where neither finding nor catalogue gives one; `usual`
    is the range of its count, null with too few settled shifts.
    """

    test: str
    code: str
    title: str
    owner_area: str | None
    severity: str | None
    safety_related: bool
    defects: int
    units: int
    at_risk: int | None
    per_100_at_risk: float | None
    usual: Usual | None

    @property
    def must_show(self) -> bool:
        """True for a code that is never folded into the others."""
        return self.severity == "A" or self.safety_related

    @property
    def above_usual(self) -> bool:
        """True when the count lies over its usual range."""
        return self.usual is not None and self.defects > self.usual.high + 1e-9


@dataclass(frozen=True, slots=True)
class Pareto:
    """All codes of a shift, most defects first, and how many of them are drawn.

    `shown` are the first eight and every severity-A or safety-related code; `others` the rest.
    """

    rows: tuple[ParetoRow, ...]
    shown: tuple[ParetoRow, ...]

    @property
    def defects(self) -> int:
        """All defects of the shift."""
        return total(row.defects for row in self.rows)

    @property
    def others(self) -> tuple[ParetoRow, ...]:
        """The codes that are not drawn one by one."""
        drawn = {(row.test, row.code) for row in self.shown}
        return tuple(row for row in self.rows if (row.test, row.code) not in drawn)

    def running_shares(self) -> tuple[float, ...]:
        """Return the running share after each drawn code."""
        shares, seen = [], 0
        for row in self.shown:
            seen += row.defects
            shares.append(seen / self.defects)
        return tuple(shares)


def pareto_facts(present: Sequence[Row], usual: Mapping[tuple[str, str], Usual | None]) -> Pareto:
    """Return the Pareto of a shift over all its tests.

    Args:
        present: the shift's rows of `pareto_by_shift`.
        usual: usual range of each (test, code).
    """
    found = [_row(row, usual) for row in present if whole(row["defects"])]
    found.sort(key=lambda row: (-row.defects, row.code, row.test))
    ahead = max(0, SHOWN_CODES - len([row for row in found if row.must_show]))
    leading = [row for row in found if not row.must_show][:ahead]
    shown = tuple(row for row in found if row.must_show or row in leading)
    return Pareto(rows=tuple(found), shown=shown)


def usual_counts(
    history: Sequence[Row], tested: Sequence[Row], windows: Sequence[Window]
) -> dict[tuple[str, str], Usual | None]:
    """Return the usual range of each code's count in the present shift.

    Args:
        history: rows of `page/code_history`: defects of each code by shift.
        tested: rows of `page/ftt_history`: units of each test by shift.
        windows: the shifts, oldest first, the present one last; settled ones are the baseline.
    """
    counts = {
        (row["test"], row["code"], row["production_date"], row["shift"]): whole(row["defects"])
        for row in history
    }
    by_test: dict[str, dict[Window, Row]] = {}
    for row in tested:
        by_test.setdefault(row["test"], {})[row["production_date"], row["shift"]] = row
    codes = sorted({(row["test"], row["code"]) for row in history})
    return {code: _usual_count(code, counts, by_test.get(code[0], {}), windows) for code in codes}


def _usual_count(
    code: tuple[str, str],
    counts: Mapping[tuple[str, str, date, str | None], int],
    tested: Mapping[Window, Row],
    windows: Sequence[Window],
) -> Usual | None:
    settled = [key for key in windows[:-1] if key in tested and tested[key]["settled"]]
    present = whole(tested.get(windows[-1], {}).get("tested"))
    usual = rate_range(
        [counts.get((*code, *key), 0) for key in settled],
        [whole(tested[key]["tested"]) for key in settled],
        present=present,
    )
    return usual.times(present) if usual else None


def _row(row: Row, usual: Mapping[tuple[str, str], Usual | None]) -> ParetoRow:
    return ParetoRow(
        test=row["test"],
        code=row["code"],
        title=row["title"] or "",
        owner_area=row["owner_area"],
        severity=row["severity"],
        safety_related=bool(row["safety_related"]),
        defects=whole(row["defects"]),
        units=whole(row["units"]),
        at_risk=row["at_risk"],
        per_100_at_risk=row["per_100_at_risk"],
        usual=usual.get((row["test"], row["code"])),
    )
