"""The defects of a shift by code, with what is usual for each code."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from eol.facts.changed import CodeSeries
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


def usual_counts(series: Sequence[CodeSeries]) -> dict[tuple[str, str], Usual | None]:
    """Return the usual range of each code's count among the present shift's units at risk.

    Args:
        series: each code over the shifts, the present one last; settled ones are the baseline.
    """
    return {(each.test, each.code): _usual_count(each) for each in series}


def _usual_count(series: CodeSeries) -> Usual | None:
    present = series.at_risk[-1]
    usual = rate_range(series.counts[:-1], series.at_risk[:-1], present=present)
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
