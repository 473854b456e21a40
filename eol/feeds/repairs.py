"""Checked repairs and events in, their tables out; ids that were not sent stay null here."""

from __future__ import annotations

import polars as pl

from eol.feeds.batch import Tables
from eol.feeds.columns import COLUMNS
from eol.feeds.feed import Feed
from eol.feeds.naming import selected

REPAIR_COLUMNS = tuple(column.name for column in COLUMNS["repairs"])
EVENT_COLUMNS = tuple(column.name for column in COLUMNS["events"])


def repair_tables(rows: pl.DataFrame, feed: Feed) -> Tables:
    """Return the table `repair`."""
    return Tables({"repair": selected(rows, REPAIR_COLUMNS)}, unknown_test_notes(rows, feed))


def event_tables(rows: pl.DataFrame, feed: Feed) -> Tables:
    """Return the table `event`."""
    return Tables({"event": selected(rows, EVENT_COLUMNS)})


def unknown_test_notes(rows: pl.DataFrame, feed: Feed) -> tuple[str, ...]:
    """Say which tests plant.toml does not declare; their rows are kept."""
    sent = rows["test"].drop_nulls().unique().sort().to_list()
    unknown = [test for test in sent if test not in feed.settings.tests]
    return tuple(f"test '{test}' is not declared; its rows are kept" for test in unknown)
