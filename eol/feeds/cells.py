"""One column of cells as sent in, typed values and the faults of cells out.

A cell that cannot be what its column asks for becomes null and a fault: the row's position and a
sentence that names column and cell. Empty cells and NaN are null and no fault here.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import polars as pl

from eol.feeds.columns import Column, Type
from eol.feeds.feed import Feed
from eol.feeds.raw import plainly_named, same_value
from eol.feeds.times import UTC, read_dates, read_times
from eol.feeds.vin import vin_faults

FAULTS_SCHEMA = {"row": pl.UInt32, "reason": pl.String}
_NO_FAULTS = pl.DataFrame(schema=FAULTS_SCHEMA)
SHOWN_SIGNS = 60
"""Signs of a cell that are shown in a reason."""

_TRUTHS = {
    **dict.fromkeys(("true", "t", "yes", "y", "1", "1.0"), True),
    **dict.fromkeys(("false", "f", "no", "n", "0", "0.0"), False),
}
_GROUPED = r"^[+-]?\d{1,3}(\.\d{3})+(,\d*)?$"


@dataclass(frozen=True, slots=True)
class Cells:
    """A typed column.

    Attributes:
        values: one value a row, null where nothing usable was sent.
        faults: `row` (position from 0) and `reason` of each cell that cannot be used.
        second: for times the second reading of a local time that came twice, else None.
    """

    values: pl.Series
    faults: pl.DataFrame
    second: pl.Series | None = None


def read_cells(sent: pl.Series, column: Column, feed: Feed) -> Cells:
    """Type one column of a feed, its text trimmed and null where empty."""
    if sent.null_count() == len(sent):
        return Cells(same_value(None, len(sent), _TYPES[column.type]), no_faults())
    return _READERS[column.type](plainly_named(sent), column, feed)


def no_faults() -> pl.DataFrame:
    """Return faults of nothing."""
    return _NO_FAULTS


def read_numbers(sent: pl.Series, decimal: str) -> pl.Series:
    """Return text or numbers as DOUBLE; null where a cell is no finite number.

    Args:
        sent: the cells.
        decimal: the decimal sign of text; with a comma, points may part thousands.
    """
    sent = plainly_named(sent)
    if sent.dtype != pl.String:
        # A flag or a time of Parquet is no number, though a cast would make it one.
        nothing = sent.dtype == pl.Boolean or sent.dtype.is_temporal()
        numbers = (sent.clear(len(sent)) if nothing else sent).cast(pl.Float64, strict=False)
    else:
        text = _with_point(sent) if decimal == "," else sent
        numbers = text.cast(pl.Float64, strict=False)
    return numbers.set((~numbers.is_finite()).fill_null(False), None)


def shown(sent: pl.Expr) -> pl.Expr:
    """A cell as a reason shows it, cut where it is long."""
    text = sent.cast(pl.String)
    cut = text.str.len_chars() > SHOWN_SIGNS
    return pl.when(cut).then(text.str.slice(0, SHOWN_SIGNS) + "…").otherwise(text)


def faults(sent: pl.Series, bad: pl.Series, sentence: Callable[[pl.Expr], pl.Expr]) -> pl.DataFrame:
    """Return the faults of the rows where `bad` is true; the sentence is made of the cell."""
    if not bad.any():
        return no_faults()
    frame = pl.DataFrame({"sent": sent, "bad": bad}).with_row_index("row").filter("bad")
    return frame.select("row", sentence(shown(pl.col("sent"))).alias("reason"))


def _text(sent: pl.Series, column: Column, feed: Feed) -> Cells:
    return Cells(sent.cast(pl.String), no_faults())


def _person(sent: pl.Series, column: Column, feed: Feed) -> Cells:
    return Cells(pseudonyms(sent.cast(pl.String), feed), no_faults())


def pseudonyms(persons: pl.Series, feed: Feed) -> pl.Series:
    """Return persons as keyed pseudonyms, each name made once; null without a key (rule 18)."""
    if feed.pseudonym is None:
        return persons.clear(len(persons))
    names = persons.drop_nulls().unique()
    masked = [feed.pseudonym(name) for name in names]
    return persons.replace_strict(names, pl.Series(masked, dtype=pl.String), return_dtype=pl.String)


def _word(sent: pl.Series, column: Column, feed: Feed) -> Cells:
    """A word without regard to case; severities are capitals, all others small letters."""
    text = sent.cast(pl.String)
    capitals = all(word.isupper() for word in column.words)
    words = text.str.to_uppercase() if capitals else text.str.to_lowercase()
    bad = ~words.is_in(column.words).fill_null(True)
    allowed = ", ".join(column.words)
    hint = f"; map it in [feed.{feed.name}.values.{column.name}]"
    sentence = f"{column.name}: '{{}}' is not one of {allowed}{hint}"
    return Cells(words, faults(text, bad, lambda cell: pl.format(sentence, cell)))


def _vin(sent: pl.Series, column: Column, feed: Feed) -> Cells:
    vins = sent.cast(pl.String).str.to_uppercase()
    check_digit = feed.settings.plant.vin_check_digit
    return Cells(vins, vin_faults(vins, check_digit=check_digit))


def _number(sent: pl.Series, column: Column, feed: Feed) -> Cells:
    numbers = read_numbers(sent, feed.options.decimal)
    bad = _unread(numbers, sent)
    return Cells(numbers, faults(sent, bad, lambda cell: _number_reason(column, feed, cell)))


def _integer(sent: pl.Series, column: Column, feed: Feed) -> Cells:
    """Whole numbers; 3.0 is one too. Text is read as such, since DOUBLE would round a long id."""
    values = _whole(sent, feed.options.decimal)
    sentence = f"{column.name}: '{{}}' is no whole number"
    bad = _unread(values, sent)
    return Cells(values, faults(sent, bad, lambda cell: pl.format(sentence, cell)))


def _whole(sent: pl.Series, decimal: str) -> pl.Series:
    has_digits = sent.dtype == pl.String or sent.dtype.is_integer()
    exact = sent.cast(pl.Int64, strict=False) if has_digits else None
    if exact is not None and exact.null_count() == sent.null_count():
        return exact
    numbers = read_numbers(sent, decimal)
    whole = numbers.set((numbers != numbers.floor()).fill_null(False), None)
    values = whole.cast(pl.Int64, strict=False)
    return values if exact is None else exact.zip_with(exact.is_not_null(), values)


def _truth(sent: pl.Series, column: Column, feed: Feed) -> Cells:
    if sent.dtype == pl.Boolean:
        return Cells(sent, no_faults())
    text = sent.cast(pl.String)
    values = text.str.to_lowercase().replace_strict(_TRUTHS, default=None, return_dtype=pl.Boolean)
    bad = values.is_null() & text.is_not_null()
    sentence = f"{column.name}: '{{}}' is neither true nor false"
    return Cells(values, faults(text, bad, lambda cell: pl.format(sentence, cell)))


def _date(sent: pl.Series, column: Column, feed: Feed) -> Cells:
    values = read_dates(sent, zone=feed.zone, time_format=feed.options.time_format)
    bad = values.is_null() & sent.is_not_null()
    sentence = f"{column.name}: '{{}}' is no date; write it as 2026-09-08"
    return Cells(values, faults(sent, bad, lambda cell: pl.format(sentence, cell)))


def _time(sent: pl.Series, column: Column, feed: Feed) -> Cells:
    time_format = feed.options.time_format
    dates = column.type is Type.MOMENT
    times = read_times(sent, zone=feed.zone, time_format=time_format, dates=dates)
    how = f"as {time_format}" if time_format else "as 2026-09-08 06:00:00"
    sentence = (
        f"{column.name}: '{{}}' is no time; write it {how}, or set time_format "
        f"in [feed.{feed.name}]"
    )
    unread = faults(sent, times.unread, lambda cell: pl.format(sentence, cell))
    values = times.first.rename(column.name)
    return Cells(values, pl.concat([unread, _never(times.never, column, feed)]), times.second)


def _never(local: pl.Series, column: Column, feed: Feed) -> pl.DataFrame:
    """The local times that the clocks of the zone left out (rule 3)."""
    if local.null_count() == len(local):
        return no_faults()
    never = local.rename("local").to_frame().with_row_index("row").drop_nulls("local")
    reason = pl.format(
        f"{column.name}: {{}} does not exist on {{}} in {feed.zone}, where the clocks go forward; "
        f"send times with their offset, or set timezone in [feed.{feed.name}]",
        pl.col("local").dt.to_string("%H:%M"),
        pl.col("local").dt.to_string("%Y-%m-%d"),
    )
    return never.select("row", reason=reason)


def _unread(values: pl.Series, sent: pl.Series) -> pl.Series:
    """True where something was sent that is no number; NaN is nothing, for nothing was measured."""
    unread = values.is_null() & sent.is_not_null()
    if not unread.any():
        return unread
    return unread & (sent.cast(pl.String).str.to_lowercase() != "nan").fill_null(True)


def _with_point(text: pl.Series) -> pl.Series:
    cell = pl.col("cell")
    # A point that parts no thousands is no sign of a number with a decimal comma.
    plain = (
        pl.when(cell.str.contains(_GROUPED))
        .then(cell.str.replace_all(".", "", literal=True))
        .when(~cell.str.contains(".", literal=True))
        .then(cell)
    )
    point = plain.str.replace(",", ".", literal=True)
    return text.rename("cell").to_frame().select(point).to_series()


def _number_reason(column: Column, feed: Feed, cell: pl.Expr) -> pl.Expr:
    other = "." if feed.options.decimal == "," else ","
    plain = pl.format(f"{column.name}: '{{}}' is no number", cell)
    hint = f'; if its decimal sign is "{other}", set decimal in [feed.{feed.name}]'
    is_number = cell.str.contains(r"^[+-]?\d+[.,]\d+$")
    return pl.when(is_number).then(plain + hint).otherwise(plain)


_TYPES: dict[Type, pl.DataType | type[pl.DataType]] = {
    **dict.fromkeys((Type.TEXT, Type.WORD, Type.VIN, Type.PERSON), pl.String),
    Type.INTEGER: pl.Int64,
    Type.NUMBER: pl.Float64,
    Type.TRUTH: pl.Boolean,
    Type.TIME: UTC,
    Type.MOMENT: UTC,
    Type.DATE: pl.Date,
}
"""The type of a column once it is read."""

_READERS: dict[Type, Callable[[pl.Series, Column, Feed], Cells]] = {
    Type.TEXT: _text,
    Type.WORD: _word,
    Type.VIN: _vin,
    Type.INTEGER: _integer,
    Type.NUMBER: _number,
    Type.TRUTH: _truth,
    Type.TIME: _time,
    Type.MOMENT: _time,
    Type.DATE: _date,
    Type.PERSON: _person,
}
