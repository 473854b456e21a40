"""Checked rows in, findings out: one row a code × zone × step of a run.

Of two findings with one key in a file the later row wins; a quantity outside 1..max_quantity is
set to null and reported, the run counts (rule 8).
"""

from __future__ import annotations

import polars as pl

from eol.feeds.batch import Tables
from eol.feeds.feed import Feed
from eol.feeds.naming import RUN_KEY, selected, with_run_key
from eol.feeds.stations import place_notes
from eol.words import counted

FINDING_COLUMNS = (
    "vin",
    "test",
    "station",
    "started_at",
    "run_ref",
    "code",
    "zone",
    "step",
    "severity",
    "quantity",
    "rating",
    "note",
)


def finding_tables(rows: pl.DataFrame, feed: Feed) -> Tables:
    """Return the table `finding` of a feed of findings."""
    keyed = with_run_key(rows)
    findings, notes = findings_of(keyed, feed)
    return Tables({"finding": findings}, (*place_notes(rows, feed), *notes))


def findings_of(keyed: pl.DataFrame, feed: Feed) -> tuple[pl.DataFrame, tuple[str, ...]]:
    """Return the findings in rows that carry their run's key, and notes of what was set aside."""
    found = keyed.filter(pl.col("code").is_not_null())
    key = [*RUN_KEY, "code", "zone", "step"]
    last = found.unique(subset=key, keep="last", maintain_order=True)
    bounded, notes = _bounded(last, feed)
    if last.height < found.height:
        doubled = counted(found.height - last.height, "finding")
        notes = (*notes, f"{doubled} came twice for a run; the later row was taken")
    table = bounded.with_columns(pl.lit(feed.test).alias("test"))
    return selected(table, FINDING_COLUMNS), notes


def _bounded(found: pl.DataFrame, feed: Feed) -> tuple[pl.DataFrame, tuple[str, ...]]:
    most = feed.settings.tests[feed.test].max_quantity if feed.test else 0
    inside = pl.col("quantity").is_between(1, most)
    outside = found.select((~inside).fill_null(False).sum()).item()
    if not outside:
        return found, ()
    where = f"outside 1 to {most} taken without the quantity"
    note = f"quantity: {counted(outside, 'finding')} {where}"
    return found.with_columns(pl.when(inside).then(pl.col("quantity"))), (note,)
