"""Checked rows in, readings out: one row a number measured in a run.

Files are long (`name`, `value`) or wide (a column a reading); a declared condition may also be a
column of its test's own feed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import polars as pl
import polars.selectors as cs

from eol.errors import FeedFileError
from eol.feeds.batch import Tables
from eol.feeds.cells import read_numbers
from eol.feeds.columns import Column, Type, needed
from eol.feeds.conversions import converted
from eol.feeds.feed import Feed
from eol.feeds.mapping import Mapped
from eol.feeds.naming import RUN_KEY, repeated, selected, with_run_key
from eol.feeds.raw import FILE_ROW
from eol.feeds.stations import place_notes
from eol.feeds.times import UTC
from eol.plant.nearest import nearest
from eol.words import counted

READING_COLUMNS = (
    "vin",
    "test",
    "station",
    "started_at",
    "run_ref",
    "name",
    "sample",
    "value",
    "lower",
    "upper",
    "measure_unit",
)
_READING_KEY = (*RUN_KEY, "name")
_LONG_ONLY = ("name", "value", "lower", "upper", "measure_unit")
_LEAST_NUMBERS = 0.5
"""Share of a wide column's cells that must be numbers for it to be a reading."""


def shaped_feed(feed: Feed, mapped: Mapped, *, where: str) -> tuple[Feed, tuple[str, ...]]:
    """Return the feed as a file of readings needs it, long or wide, and notes of columns left out.

    Raises:
        FeedFileError: the file has neither name and value nor a column of numbers, or one of the two alone.
    """
    if "name" in mapped.sources and "value" in mapped.sources:
        columns = (needed(c) if c.name in ("name", "value") else c for c in feed.columns)
        return replace(feed, columns=tuple(columns)), _left_out(mapped.extra)
    _refuse_half_long(mapped, where)
    names = [name for name in mapped.extra if _is_reading(mapped.frame[name], name, feed)]
    if not names and mapped.frame.height:
        raise FeedFileError(
            "the file has no readings: neither columns name and value nor a column of numbers",
            where=where,
        )
    base = (column for column in feed.columns if column.name not in _LONG_ONLY)
    wide = (*base, *(Column(name, Type.NUMBER) for name in names))
    return replace(feed, columns=wide), _left_out(set(mapped.extra) - set(names))


def reading_tables(rows: pl.DataFrame, feed: Feed) -> Tables:
    """Return the table `reading` of a feed of readings."""
    keyed = with_run_key(rows)
    if "value" not in {column.name for column in feed.columns}:
        names = [column.name for column in feed.columns if column.type is Type.NUMBER]
        keyed = unpivoted(keyed, names)
    readings, notes = readings_of(keyed, feed)
    return Tables({"reading": readings}, (*place_notes(rows, feed), *notes))


def unpivoted(keyed: pl.DataFrame, names: Sequence[str]) -> pl.DataFrame:
    """Turn a column a reading into a row a reading; empty cells are no readings."""
    sample = ("sample",) if "sample" in keyed.columns else ()
    kept = (*RUN_KEY, "vin", "started_at", *sample, FILE_ROW)
    wide = keyed.select(cs.by_name(*kept, *names))
    long = wide.unpivot(on=cs.by_name(*names), index=kept, variable_name="name", value_name="value")
    nothing = pl.lit(None, dtype=pl.Float64)
    return long.filter(pl.col("value").is_not_null()).with_columns(
        pl.col("value").cast(pl.Float64),
        nothing.alias("lower"),
        nothing.alias("upper"),
        pl.lit(None, dtype=pl.String).alias("measure_unit"),
    )


def readings_of(keyed: pl.DataFrame, feed: Feed) -> tuple[pl.DataFrame, tuple[str, ...]]:
    """Return readings, each sample of a run's reading once, in the declared units.

    Of two rows with one sample number the later wins. Without sample numbers equal values of one
    reading count once, and differing ones are samples 1, 2, … in the order of the rows.
    """
    if "sample" not in keyed.columns:
        keyed = keyed.with_columns(pl.lit(None, dtype=pl.Int64).alias("sample"))
    several = repeated(keyed, _READING_KEY)
    single = keyed.filter(~several) if several.any() else keyed
    single = single.with_columns(pl.col("sample").fill_null(1))
    numbered = _numbered(keyed.filter(several))
    last = numbered.unique(subset=[*_READING_KEY, "sample"], keep="last", maintain_order=True)
    table = converted(pl.concat([single, last]), feed).with_columns(pl.lit(feed.test).alias("test"))
    return selected(table, READING_COLUMNS), _lost_note(numbered.height - last.height)


def no_readings() -> pl.DataFrame:
    """Return the table `reading` without a row."""
    types: dict[str, pl.DataType | type[pl.DataType]] = {
        "started_at": UTC,
        "sample": pl.Int64,
        **dict.fromkeys(("value", "lower", "upper"), pl.Float64),
        FILE_ROW: pl.Int64,
    }
    names = (*READING_COLUMNS, FILE_ROW)
    return pl.DataFrame(schema={name: types.get(name, pl.String) for name in names})


def _refuse_half_long(mapped: Mapped, where: str) -> None:
    """Refuse a long file that lost one of its two columns: as a wide one it would tell other readings."""
    there = [name for name in ("name", "value") if name in mapped.sources]
    if there:
        (missing,) = {"name", "value"} - set(there)
        near = nearest(missing, mapped.extra)
        raise FeedFileError(
            f"the file has the column {there[0]} of long readings, but {missing} is missing",
            where=where,
            hint=(f"The nearest is {near}. " if near else "")
            + f"Mend the file, or rename {mapped.sources[there[0]]} in plant.toml if it is wide.",
        )


def _numbered(rows: pl.DataFrame) -> pl.DataFrame:
    """Leave out what was sent twice and number the samples that came without a number."""
    same = [*_READING_KEY, "sample", "value"]
    once = rows.unique(subset=same, keep="last", maintain_order=True)
    number = pl.int_range(1, pl.len() + 1, dtype=pl.Int64).over(*_READING_KEY)
    return once.with_columns(pl.coalesce("sample", number).alias("sample"))


def _lost_note(lost: int) -> tuple[str, ...]:
    if not lost:
        return ()
    return (f"{counted(lost, 'reading')} came twice under one sample number; the later was taken",)


def _is_reading(cells: pl.Series, name: str, feed: Feed) -> bool:
    if name in feed.conditions or cells.dtype.is_numeric():
        return True
    if cells.dtype != pl.String:
        return False
    sent = len(cells) - cells.null_count()
    numbers = read_numbers(cells, feed.options.decimal)
    return sent > 0 and len(numbers) - numbers.null_count() >= _LEAST_NUMBERS * sent


def _left_out(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(f"column '{name}' holds no readings and is not used" for name in sorted(names))
