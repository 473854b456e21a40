"""Mapped rows in, typed rows that are accepted and the faults of those that are not out.

Every fault is a sentence that names column and value. What one cell shows is checked in
eol.feeds.cells, what needs the row or the feed here; a row with a fault is never half used.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import polars as pl
import polars.selectors as cs

from eol.feeds.catalogues import catalogue_faults
from eol.feeds.cells import Cells, faults, no_faults, read_cells, shown
from eol.feeds.columns import Column, Type
from eol.feeds.conversions import conversion_faults
from eol.feeds.corrections import correction_faults
from eol.feeds.feed import Feed
from eol.feeds.mapping import Mapped
from eol.feeds.passes import settle_passes
from eol.feeds.raw import FILE_ROW
from eol.feeds.rules import Rule, rules_of
from eol.feeds.shifts import shift_faults
from eol.feeds.times import UTC

_ROW = "eol.row"


@dataclass(frozen=True, slots=True)
class Checked:
    """Rows after the checks.

    Attributes:
        frame: the accepted rows, typed, with the feed's further columns as sent and file_row.
        refused: file_row and reason of each refused row; several reasons are joined by "; ".
        notes: what was settled without refusing a row.
    """

    frame: pl.DataFrame
    refused: pl.DataFrame
    notes: tuple[str, ...]


def check_rows(mapped: Mapped, feed: Feed) -> Checked:
    """Type and check mapped rows."""
    sent = _used(mapped, feed)
    cells = {column.name: read_cells(sent[column.name], column, feed) for column in feed.columns}
    times, notes = _settled(cells, feed)
    values = {name: one.values for name, one in cells.items()}
    typed = sent.with_columns(**values | {name: times[name] for name in times.columns})
    found = [one.faults for one in cells.values()]
    found += [_empty(sent[column.name], column) for column in feed.columns if column.required]
    found += [_broken(rule, typed, sent) for rule in _rules(feed, sent)]
    found += [_further_faults(typed, feed)]
    return _split(typed, pl.concat(found) if found else no_faults(), notes)


def _used(mapped: Mapped, feed: Feed) -> pl.DataFrame:
    """The rows without the columns that no table takes."""
    known = [column.name for column in feed.columns]
    extra = mapped.extra if feed.kind == "units" else ()
    return mapped.frame.select(cs.by_name(*known, *extra, FILE_ROW))


def _further_faults(typed: pl.DataFrame, feed: Feed) -> pl.DataFrame:
    """The faults that only the rows of one feed can have."""
    if feed.kind == "readings":
        return conversion_faults(typed, feed)
    if feed.kind == "defect_codes":
        return catalogue_faults(typed)
    if feed.kind == "corrections":
        return correction_faults(typed, feed)
    return shift_faults(typed, feed) if feed.kind == "shifts" else no_faults()


def _settled(cells: dict[str, Cells], feed: Feed) -> tuple[pl.DataFrame, tuple[str, ...]]:
    times = {name: one for name, one in cells.items() if one.second is not None}
    frame = pl.DataFrame({name: one.values for name, one in times.items()})
    seconds = {name: one.second for name, one in times.items() if one.second is not None}
    return settle_passes(frame, seconds, feed)


def _empty(sent: pl.Series, column: Column) -> pl.DataFrame:
    return faults(sent, sent.is_null(), lambda cell: pl.lit(f"{column.name}: the cell is empty"))


def _rules(feed: Feed, sent: pl.DataFrame) -> Iterator[Rule]:
    yield from rules_of(feed)
    for column in feed.columns:
        if column.type in (Type.TIME, Type.MOMENT) and sent[column.name].null_count() < sent.height:
            yield from _time_rules(column, feed)


def _time_rules(column: Column, feed: Feed) -> Iterator[Rule]:
    at, cell = pl.col(column.name), shown(pl.col(f"sent.{column.name}"))
    if column.past:
        late = f"{column.name}: '{{}}' lies after the time of loading; {_clock_hint(feed)}"
        yield Rule(
            at > pl.lit(feed.latest_at, dtype=UTC) + _fast_clock(feed), pl.format(late, cell)
        )
    if column.recorded:
        first = feed.settings.plant.starts_on.isoformat()
        early = f"{column.name}: '{{}}' lies before the record begins on {first} (starts_on)"
        yield Rule(at < pl.lit(feed.starts_at, dtype=UTC), pl.format(early, cell))


def _clock_hint(feed: Feed) -> str:
    if feed.test is None:
        return "send it when it has happened"
    return "set the clock of the bench, or its timezone or [[clock_offset]] in plant.toml"


def _fast_clock(feed: Feed) -> pl.Expr:
    """How far a station's clock is known to run ahead: its times as sent may do so too."""
    ahead: dict[str, float] = {}
    for offset in feed.settings.clock_offsets:
        ahead[offset.station] = max(ahead.get(offset.station, 0.0), -offset.seconds)
    if feed.test is None or not ahead:
        return pl.duration(seconds=0)
    slack = pl.col("station").replace_strict(ahead, default=0.0, return_dtype=pl.Float64)
    return pl.duration(microseconds=slack * 1e6)


def _broken(rule: Rule, typed: pl.DataFrame, sent: pl.DataFrame) -> pl.DataFrame:
    """The faults of one rule; sentences see the typed columns and, as sent.NAME, the cells."""
    broken = typed.select(rule.broken.fill_null(False).alias("broken")).to_series()
    if not broken.any():
        return no_faults()
    cells = sent.select(pl.all().name.prefix("sent.")).filter(broken)
    rows = pl.concat([typed.with_row_index(_ROW).filter(broken), cells], how="horizontal")
    return rows.select(pl.col(_ROW).alias("row"), rule.reason.cast(pl.String).alias("reason"))


def _split(typed: pl.DataFrame, found: pl.DataFrame, notes: tuple[str, ...]) -> Checked:
    if found.is_empty():
        return Checked(typed, _refused(typed.clear(), found), notes)
    rows = found.unique(maintain_order=True).group_by("row", maintain_order=True)
    reasons = rows.agg(pl.col("reason").str.join("; ")).sort("row")
    bad = pl.int_range(typed.height, dtype=pl.UInt32, eager=True).is_in(reasons["row"].implode())
    return Checked(typed.filter(~bad), _refused(typed.filter(bad), reasons), notes)


def _refused(rows: pl.DataFrame, reasons: pl.DataFrame) -> pl.DataFrame:
    return pl.DataFrame({FILE_ROW: rows[FILE_ROW], "reason": reasons["reason"]})
