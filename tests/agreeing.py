"""Compares the rows of two engines: counts exactly, ratios to 1e-12."""

from __future__ import annotations

import polars as pl

from eol.fleet.asked import Asked, Engine
from eol.fleet.portable import reasons
from eol.sqlfiles import sql_files

RATIO = 1e-12


def differing_views(one: Engine, other: Engine) -> dict[str, str]:
    """Return what differs, by view; of a view that differs also why it may not be portable."""
    found = {}
    for file in sql_files("views"):
        told = difference(one.rows(Asked(file)), other.rows(Asked(file)))
        if told:
            found[file.name] = "; ".join([told, *reasons(file)])
    return found


def difference(one: pl.DataFrame, other: pl.DataFrame) -> str:
    """Say in words how the rows differ, in any order; nothing where they do not."""
    if one.schema != other.schema:
        return f"columns: {one.schema} and {other.schema}"
    if one.height != other.height:
        return f"rows: {one.height} and {other.height}"
    first, second = in_order(one), in_order(other)
    wrong = [name for name in one.columns if not same(first[name], second[name])]
    return f"values of {', '.join(wrong)}" if wrong else ""


def in_order(rows: pl.DataFrame) -> pl.DataFrame:
    """Sort by all columns, exact ones first, floats rounded so that a last digit cannot move a row."""
    floats = [name for name, kind in rows.schema.items() if kind == pl.Float64]
    exact = [pl.col(name) for name in rows.columns if name not in floats]
    rounded = [pl.col(name).round_sig_figs(6) for name in floats]
    return rows.sort(*exact, *rounded, nulls_last=True)


def same(one: pl.Series, other: pl.Series) -> bool:
    """Tell whether two columns hold the same values: floats to 1e-12 of their size, all others exactly."""
    if one.dtype != pl.Float64:
        return bool(one.eq_missing(other).all())
    near = (one - other).abs() <= RATIO * pl.select(
        pl.max_horizontal(one.abs(), pl.lit(1.0))
    ).to_series()
    return bool((near | (one.is_null() & other.is_null())).fill_null(False).all())
