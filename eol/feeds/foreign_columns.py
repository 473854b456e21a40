"""The columns of a foreign file in, what each of them looks like out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import polars as pl

from eol.feeds.foreign_words import likeness, meaning
from eol.feeds.guess_times import ISO_DATE, clock_format, date_format, time_format
from eol.feeds.raw import FILE_ROW, plainly_named
from eol.feeds.vin import FORM

_SAMPLE = 300
_COMMA_NUMBER = re.compile(r"[+-]?\d+,\d+")
_NUMBER = re.compile(r"[+-]?\d+([.,]\d+)?([eE][+-]?\d+)?")
_MOST_VINS, _MOST_NUMBERS = 0.8, 0.95


class Looks(StrEnum):
    """What the cells of a column look like."""

    VIN = "VIN"
    TIME = "time"
    DATE = "date"
    CLOCK = "time of day"
    NUMBER = "number"
    TEXT = "text"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class Sent:
    """A column as sent, or a date and a time of day that are one time together.

    Attributes:
        names: the file's own names, two where they are joined.
        cells: some of its different cells, as text.
        looks: what they look like.
        form: the time format they have, "" for ISO 8601; None for what is no time.
    """

    names: tuple[str, ...]
    cells: tuple[str, ...]
    looks: Looks
    form: str | None = None

    @property
    def name(self) -> str:
        """Its name, or both."""
        return " + ".join(self.names)

    def like(self, column: str) -> int:
        """Return how much its name is like that of a column of the tool, as `likeness` counts."""
        return max(likeness(name, column) for name in self.names)

    def has_comma_numbers(self) -> bool:
        """Tell whether its decimal sign is a comma."""
        return any(_COMMA_NUMBER.fullmatch(cell) for cell in self.cells)

    def tells_results(self) -> bool:
        """Tell whether its cells are words for results; 1 and 0 alone say too little."""
        words = set(self.cells)
        known = all(meaning("result", word) for word in words)
        return bool(words) and len(words) <= 6 and known and not words <= {"0", "1"}


def sent_columns(frame: pl.DataFrame, *, zone: str) -> tuple[Sent, ...]:
    """Return the columns of a file, those of date and time of day joined as well.

    Args:
        frame: the file's own columns and file_row.
        zone: the plant's zone, which tells whether day or month goes first in a doubtful date.
    """
    names = [name for name in frame.columns if name != FILE_ROW and name.strip()]
    alone = tuple(_column(name, plainly_named(frame[name]), zone) for name in names)
    return (*alone, *_joined(alone))


def _column(name: str, cells: pl.Series, zone: str) -> Sent:
    if cells.dtype.is_nested() or cells.dtype in (pl.Binary, pl.Object):
        return Sent((name,), (), Looks.NOTHING)
    told = cells.drop_nulls().unique(maintain_order=True).head(_SAMPLE).cast(pl.String)
    sample = tuple(cell for one in told if (cell := one.strip()))
    looks, form = _look(sample, zone)
    return Sent((name,), sample, looks, form)


def _look(cells: Sequence[str], zone: str) -> tuple[Looks, str | None]:
    if not cells:
        return Looks.NOTHING, None
    if _share(FORM, [cell.upper() for cell in cells]) >= _MOST_VINS:
        return Looks.VIN, None
    for looks, form in (
        (Looks.TIME, time_format(cells, zone=zone)),
        (Looks.DATE, date_format(cells, zone=zone)),
        (Looks.CLOCK, clock_format(cells)),
    ):
        if form is not None:
            return looks, form
    numbers = _share(_NUMBER, cells) >= _MOST_NUMBERS
    return (Looks.NUMBER if numbers else Looks.TEXT), None


def _share(pattern: str | re.Pattern[str], cells: Sequence[str]) -> float:
    return sum(re.fullmatch(pattern, cell) is not None for cell in cells) / len(cells)


def _joined(columns: Sequence[Sent]) -> list[Sent]:
    """Each time of day with the date before it, else with the first one."""
    dates = [column for column in columns if column.looks is Looks.DATE]
    clocks = [column for column in columns if column.looks is Looks.CLOCK]
    if not dates:
        return []
    return [_join(_date_of(clock, dates, columns), clock) for clock in clocks]


def _date_of(clock: Sent, dates: Sequence[Sent], columns: Sequence[Sent]) -> Sent:
    before = [date for date in dates if columns.index(date) < columns.index(clock)]
    return before[-1] if before else dates[0]


def _join(day: Sent, clock: Sent) -> Sent:
    form = f"{day.form} {clock.form}"
    iso = day.form == ISO_DATE and clock.form in ("%H:%M:%S", "%H:%M", "%H:%M:%S.%f")
    return Sent((*day.names, *clock.names), (), Looks.TIME, "" if iso else form)
