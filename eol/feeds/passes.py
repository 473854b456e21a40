"""Times that came twice in, the pass of the repeated hour that each belongs to out (rule 3).

The rows of an `ordered` feed take the first pass until the time runs backwards, then the second;
without that order the first pass is taken and a note says so. A run's start follows its end, and
its end its start, wherever only one pass lets the run start before it ends.
"""

from __future__ import annotations

from collections.abc import Mapping

import polars as pl

from eol.feeds.feed import Feed
from eol.feeds.times import local_times
from eol.words import counted

DECIDING = ("ended_at", "started_at", "at", "line_off_at", "entered_at", "made_at")
"""The column whose order tells the passes apart: the first that has a time which came twice."""


def settle_passes(
    times: pl.DataFrame, seconds: Mapping[str, pl.Series], feed: Feed
) -> tuple[pl.DataFrame, tuple[str, ...]]:
    """Choose the pass of each time that came twice.

    Args:
        times: the columns of times, the first pass taken, in the order of the file.
        seconds: by column the second pass where there is one, else null.
        feed: the feed, for its order and zone.

    Returns:
        The columns settled, and notes of the rows that were settled without knowing.
    """
    twice = {name: second for name, second in seconds.items() if second.null_count() < len(second)}
    if not twice:
        return times, ()
    deciding = next((name for name in DECIDING if name in twice), next(iter(twice)))
    if feed.options.ordered:
        times = times.with_columns(_in_order(times[deciding], twice[deciding]))
    notes = () if feed.options.ordered else (_note(times[deciding], twice[deciding], feed),)
    return _by_duration(times, twice, feed.kind), notes


def _in_order(first: pl.Series, second: pl.Series) -> pl.Series:
    """The second pass of a night begins with the first row whose time runs backwards."""
    frame = pl.DataFrame({"first": first, "second": second}).with_row_index("row")
    hour = frame.drop_nulls("second").with_columns(night=pl.col("first").dt.truncate("1mo"))
    backwards = (pl.col("first") < pl.col("first").shift(1)).fill_null(False).cum_max()
    late = hour.select("row", late=backwards.over("night"))
    settled = frame.join(late, on="row", how="left", maintain_order="left")
    chosen = pl.when(pl.col("late").fill_null(False)).then("second").otherwise("first")
    return settled.select(chosen.alias(first.name)).to_series()


def _by_duration(times: pl.DataFrame, twice: Mapping[str, pl.Series], kind: str) -> pl.DataFrame:
    """A run is short: it starts in the second pass where it can; none ends before it starts."""
    if not {"started_at", "ended_at"} <= set(times.columns):
        return times
    start, end = times["started_at"], times["ended_at"]
    if kind == "test" and "started_at" in twice:
        later = (twice["started_at"] <= end).fill_null(False)
        start = twice["started_at"].zip_with(later, start)
    if "ended_at" in twice:
        too_early = ((end < start) & (twice["ended_at"] >= start)).fill_null(False)
        end = twice["ended_at"].zip_with(too_early, end)
    return times.with_columns(start.alias("started_at"), end.alias("ended_at"))


def _note(first: pl.Series, second: pl.Series, feed: Feed) -> str:
    hour = first.filter(second.is_not_null())
    days = local_times(hour, feed.zone).dt.date().unique().sort()
    on = ", ".join(day.isoformat() for day in days)
    return (
        f"{first.name}: {counted(len(hour), 'time')} of the hour that came twice on {on} in "
        f"{feed.zone} taken as its first pass"
    )
