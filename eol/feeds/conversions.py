"""Readings in the measure units of a file in, in those that plant.toml declares out.

A reading that is a declared condition is turned into the condition's unit; every other one keeps
the unit it came in. The unit sent is that of the row, else that of `measure_units` of the feed.
"""

from __future__ import annotations

from functools import reduce

import polars as pl

from eol.errors import FeedFileError
from eol.feeds.cells import no_faults
from eol.feeds.feed import Feed
from eol.feeds.measure_units import Conversion, conversion

_NUMBERS = ("value", "lower", "upper")


def conversion_faults(rows: pl.DataFrame, feed: Feed) -> pl.DataFrame:
    """Return the faults of long readings whose unit cannot become the declared one."""
    if feed.kind != "readings" or "measure_unit" not in rows.columns:
        return no_faults()
    reasons = [(pair, why) for pair in _pairs(rows, feed) if (why := _refusal(*pair, feed))]
    if not reasons:
        return no_faults()
    bad = pl.DataFrame(
        [(name, unit, f"measure_unit: {why}") for (name, unit), why in reasons],
        schema=["name", "measure_unit", "reason"],
        orient="row",
    )
    keyed = rows.with_row_index("row").join(bad, on=["name", "measure_unit"], maintain_order="left")
    return keyed.select("row", "reason")


def converted(readings: pl.DataFrame, feed: Feed) -> pl.DataFrame:
    """Return readings (name, value, lower, upper, measure_unit, …) in the declared units.

    Raises:
        FeedFileError: `measure_units` names a unit that cannot become the declared one.
    """
    named = feed.options.measure_units
    _check_options(named, feed)
    sent = pl.coalesce("measure_unit", _by_name(named))
    readings = readings.with_columns(sent.alias("measure_unit"))
    changes = [
        (name, unit, conversion(unit, wanted))
        for name, unit in _pairs(readings, feed)
        if (wanted := feed.conditions[name]) and wanted != unit
    ]
    numbers = [reduce(_changed, changes, pl.col(number)).alias(number) for number in _NUMBERS]
    declared = {name: unit for name, unit in feed.conditions.items() if unit}
    unit = pl.coalesce(_by_name(declared), "measure_unit")
    return readings.with_columns(*(numbers if changes else ()), unit.alias("measure_unit"))


def _pairs(rows: pl.DataFrame, feed: Feed) -> list[tuple[str, str]]:
    """The names and units that came for declared conditions with a declared unit."""
    declared = [name for name, unit in feed.conditions.items() if unit]
    if not declared:
        return []
    sent = rows.select("name", "measure_unit").filter(pl.col("name").is_in(declared))
    return sent.drop_nulls().unique().sort("name", "measure_unit").rows()


def _refusal(name: str, unit: str, feed: Feed) -> str | None:
    try:
        conversion(unit, feed.conditions[name] or unit)
    except ValueError as error:
        return str(error)
    return None


def _check_options(named: dict[str, str], feed: Feed) -> None:
    for name, unit in named.items():
        why = _refusal(name, unit, feed) if name in feed.conditions else None
        if why:
            raise FeedFileError(
                why,
                where=f"plant.toml, feed.{feed.name}.measure_units.{name}",
                hint="Mend the measure unit there or of the condition, and load the file again.",
            )


def _by_name(units: dict[str, str]) -> pl.Expr:
    if not units:
        return pl.lit(None, dtype=pl.String)
    return pl.col("name").replace_strict(units, default=None, return_dtype=pl.String)


def _changed(number: pl.Expr, change: tuple[str, str, Conversion]) -> pl.Expr:
    name, unit, how = change
    here = (pl.col("name") == name) & (pl.col("measure_unit") == unit)
    return pl.when(here).then(how.of_column(number)).otherwise(number)
