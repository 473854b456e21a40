"""Rows of shifts added up to rows of days or weeks, query by query of `queries/page`."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import polars as pl

from eol.facts.reader import Reader
from eol.statistics.proportion import wilson
from eol.statistics.rate import dphu_interval

_MOST_UNDECIDED = 20
"""Rule 11: no line FTT while more than one in so many units is undecided."""

_KEY = ["production_date", "shift"]
_COUNTS = {
    "presented",
    "tested",
    "passed_first",
    "pending",
    "void_runs",
    "aborted_runs",
    "retested",
}


def history_of(
    reader: Reader, folder: str, name: str, begins: pl.Expr, values: Mapping[str, object]
) -> pl.DataFrame:
    """Return a history with one row a period instead of one a shift.

    Args:
        reader: gives the rows of shifts.
        folder: `page`.
        name: a file that gives rows of many shifts.
        begins: the first day of the period of a production date.
        values: the file's parameters.

    Returns:
        The file's columns: production_date is the period's first day, shift is null.
    """
    found = reader.run(folder, name, **values)
    if name == "codes_before" or not found.width:
        return found
    if name == "defect_places":
        # Places are counted within a shift: added up they would mean nothing.
        return found.clear()
    moved = found.with_columns(production_date=begins, shift=pl.lit(None, pl.String))
    if name == "ftt_history":
        return _ftt(moved)
    if name == "line_history":
        return _line(moved, reader.run(folder, "build_yields", **values), begins)
    sums = [c for c in ("defects", "units", "tested", "failed", "spared") if c in moved.columns]
    keys = [column for column in moved.columns if column not in sums]
    return moved.group_by(keys, maintain_order=True).agg(pl.col(sums).sum())


def added(name: str, parts: Sequence[pl.DataFrame]) -> pl.DataFrame:
    """Return what the shifts of a period give together, with the columns that each gives.

    Args:
        name: the file or view.
        parts: its rows of each shift, in the order of the shifts.
    """
    filled = [part for part in parts if part.height]
    if not filled:
        return parts[-1]
    together = pl.concat(filled, how="vertical_relaxed")
    return _ADDED.get(name, _as_they_come)(together, filled[-1])


def _ftt(moved: pl.DataFrame) -> pl.DataFrame:
    sums = [column for column in moved.columns if column in _COUNTS]
    rows = moved.group_by("production_date", "shift", "test", maintain_order=True).agg(
        pl.col("starts_at").min(), pl.col(sums).sum(), pl.col("settled").all()
    )
    rates = [wilson(r["passed_first"], r["tested"]) for r in rows.to_dicts()]
    return rows.with_columns(
        pl.lit(None, pl.String).alias("crew"),
        pl.Series("ftt", [rate.value for rate in rates], pl.Float64),
        pl.Series("low", [rate.low for rate in rates], pl.Float64),
        pl.Series("high", [rate.high for rate in rates], pl.Float64),
    )


def _line(moved: pl.DataFrame, yields: pl.DataFrame, begins: pl.Expr) -> pl.DataFrame:
    sums = ["built", "went_through", "failed_one", "undecided", "defects"]
    rows = moved.group_by("production_date", "shift", maintain_order=True).agg(
        pl.col(sums).sum(), pl.col("settled").all()
    )
    tests = yields.group_by(begins.alias("begun"), "test").agg(pl.col("tested", "passed").sum())
    squares = yields.group_by("production_date", "shift").agg(pl.col("squares").first())
    squares = squares.group_by(begins.alias("begun")).agg(pl.col("squares").sum())
    by_day = {row["begun"]: row["squares"] for row in squares.to_dicts()}
    return pl.DataFrame([_line_row(row, tests, by_day) for row in rows.to_dicts()])


def _line_row(
    row: dict[str, object], tests: pl.DataFrame, squares: Mapping[object, int]
) -> dict[str, object]:
    """One period's line: ftt as rule 11 has it, rty the product over its tests."""
    day, built, undecided = row["production_date"], _number(row["built"]), _number(row["undecided"])
    through, failed = _number(row["went_through"]), _number(row["failed_one"])
    told = built >= _MOST_UNDECIDED * undecided
    ftt = wilson(through, through + failed) if told else wilson(0, 0)
    defects = _number(row["defects"])
    dphu = dphu_interval(built, defects, max(defects, int(squares.get(day) or 0)))
    return row | {
        "crew": None,
        "ftt": ftt.value,
        "low": ftt.low,
        "high": ftt.high,
        "worst": through / built if built else None,
        "best": (through + undecided) / built if built else None,
        "rty": _rolled(tests.filter(pl.col("begun") == day)),
        "dphu": dphu.value,
        "dphu_low": dphu.low,
        "dphu_high": dphu.high,
    }


def _rolled(tests: pl.DataFrame) -> float | None:
    """The product of the tests' shares: 0 where one is 0, null where one is null (rule 11)."""
    shares = [r["passed"] / r["tested"] if r["tested"] else None for r in tests.to_dicts()]
    if any(share == 0 for share in shares):
        return 0.0
    product = 1.0
    for share in shares:
        if share is None:
            return None
        product *= share
    return product if shares else None


def _number(value: object) -> int:
    return int(value) if isinstance(value, int) else 0


def _as_they_come(together: pl.DataFrame, last: pl.DataFrame) -> pl.DataFrame:
    return together


def _window(together: pl.DataFrame, last: pl.DataFrame) -> pl.DataFrame:
    one_crew = together["crew"].n_unique() == 1
    return together.select(
        pl.col("crew").first() if one_crew else pl.lit(None, pl.String).alias("crew"),
        pl.col("starts_at").min(),
        pl.col("ends_at").max(),
        pl.col("cancelled").all(),
    )


def _stations(together: pl.DataFrame, last: pl.DataFrame) -> pl.DataFrame:
    """A station is heard from once it has sent what is newer than the end of its last shift here."""
    return together.group_by("station", "test", maintain_order=True).agg(
        pl.col("last_at").max(), pl.col("heard_after").last()
    )


def _tests(together: pl.DataFrame, last: pl.DataFrame) -> pl.DataFrame:
    return together.group_by("test", maintain_order=True).agg(
        pl.col("title").last(), pl.col("required").any()
    )


def _sum(together: pl.DataFrame, last: pl.DataFrame) -> pl.DataFrame:
    return together.sum()


def _zones(together: pl.DataFrame, last: pl.DataFrame) -> pl.DataFrame:
    """The leading code of a zone is the one that led in the shift with most defects there."""
    return (
        together.sort("defects", descending=True, maintain_order=True)
        .group_by("zone", maintain_order=True)
        .agg(
            pl.col("title", "cell", "outline", "hv_near").first(),
            pl.col("defects").sum(),
            pl.col("leading").drop_nulls().first(),
        )
    )


def _bays(together: pl.DataFrame, last: pl.DataFrame) -> pl.DataFrame:
    return together.group_by("test", "station", "bay", maintain_order=True).agg(
        pl.col("presented", "tested", "passed_first", "void_runs").sum()
    )


def _once(together: pl.DataFrame, last: pl.DataFrame) -> pl.DataFrame:
    """A unit that every shift of the period tells of is told once, as of the last one."""
    keys = [c for c in ("vin", "test", "code", "zone", "reason", "event") if c in together.columns]
    known = last.select(keys)
    return (
        together.group_by(keys, maintain_order=True)
        .agg(pl.exclude("in_shift").last(), pl.col("in_shift").any())
        .join(known, on=keys, how="semi", nulls_equal=True)
        .select(together.columns)
    )


def _pareto(together: pl.DataFrame, last: pl.DataFrame) -> pl.DataFrame:
    return (
        together.group_by("test", "code", maintain_order=True)
        .agg(
            pl.col("title", "owner_area").drop_nulls().first(),
            pl.col("severity").min(),
            pl.col("safety_related").any(),
            pl.col("defects", "units", "at_risk").sum(),
        )
        .with_columns(per_100_at_risk=100 * pl.col("defects") / pl.col("at_risk"))
    )


_ADDED: dict[str, Callable[[pl.DataFrame, pl.DataFrame], pl.DataFrame]] = {
    "window": _window,
    "stations": _stations,
    "tests": _tests,
    "tested_in_full": _sum,
    "zones": _zones,
    "bays": _bays,
    "escapes": _once,
    "safety_units": _once,
    "pareto_by_shift": _pareto,
}
