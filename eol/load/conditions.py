"""Holds back a file whose condition has moved so far that its unit of measure must have changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import timedelta

import polars as pl

from eol.store.database import Database

LOWEST_RATIO, HIGHEST_RATIO = 0.2, 5.0
"""A file's median may lie this far from the median of the condition's last 20 shifts."""

FEWEST_READINGS = 5
"""Below this a file's median says too little of its unit of measure."""

_LOOK_BACK = timedelta(days=60)
_ID_STEP = 1 << 30

Usual = Mapping[tuple[str, str], float]


def usual_conditions(store: Database) -> Usual:
    """Return the median of each (test, condition) over its last 20 shifts; empty in an empty store."""
    clock = store.query_rows("store", "data_clock")[0][0]
    if clock is None:
        return {}
    since = clock - _LOOK_BACK
    rows = store.query_rows(
        "load",
        "usual_conditions",
        since=since.date(),
        first_run_id=int(since.timestamp()) * _ID_STEP,
    )
    return {(test, name): median for test, name, median in rows if median}


def jumps(tables: Mapping[str, pl.DataFrame], usual: Usual) -> Iterator[str]:
    """Say of each condition whose median leaves 0.2 to 5 times its usual one that it does, and what to do.

    Args:
        tables: a file's accepted rows; only `reading` is looked at.
        usual: what `usual_conditions` gave.
    """
    if "reading" not in tables or not usual:
        return
    medians = (
        tables["reading"]
        .group_by("test", "name")
        .agg(pl.col("value").median().alias("median"), pl.col("value").count().alias("readings"))
    )
    for test, name, median, readings in medians.sort("test", "name").iter_rows():
        before = usual.get((test, name))
        if before is None or median is None or readings < FEWEST_READINGS:
            continue
        if not LOWEST_RATIO <= median / before <= HIGHEST_RATIO:
            yield (
                f"the median of {name} is {median:.6g}, over the last 20 shifts it was {before:.6g}:"
                " has its unit of measure changed?"
            )
