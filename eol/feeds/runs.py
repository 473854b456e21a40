"""Checked rows of a test in, its runs, findings and conditions out.

A row is a finding or a clean run; the rows of one run become one, with the worst of their results
(rule 5) and of every other column the first that was sent. Of two revisions of a run in one file
the higher counts (rule 1).
"""

from __future__ import annotations

import polars as pl

from eol.feeds.batch import Tables
from eol.feeds.feed import Feed
from eol.feeds.findings import findings_of
from eol.feeds.naming import RUN_KEY, repeated, selected, with_run_key
from eol.feeds.raw import FILE_ROW
from eol.feeds.readings import no_readings, readings_of, unpivoted
from eol.feeds.stations import place_notes, with_declared_bays
from eol.words import Result, counted

RUN_COLUMNS = (
    "vin",
    "test",
    "station",
    "bay",
    "run_ref",
    "started_at",
    "ended_at",
    "result",
    "purpose",
    "program",
    "operator",
    "last_step",
    "revision",
)
WORST_FIRST = (Result.FAIL, Result.ABORTED, Result.BYPASS, Result.PASS)
"""Of rows of one run that disagree the first of these counts (rule 5)."""

_RANKS = {result.value: rank for rank, result in enumerate(WORST_FIRST)}
_FINDING_CELLS = ("zone", "step", "severity", "quantity", "rating")


def run_tables(rows: pl.DataFrame, feed: Feed) -> Tables:
    """Return the tables `run`, `finding` and `reading` of a test's own feed."""
    placed = with_declared_bays(rows, feed)
    keyed, old = _newest(with_run_key(placed))
    runs, disagreed = _merged(keyed, feed)
    findings, finding_notes = findings_of(keyed, feed)
    tables = {"run": runs, "finding": findings, "reading": _conditions(keyed, feed)}
    notes = (*place_notes(placed, feed), *old, *disagreed, *finding_notes, *_codeless(keyed))
    return Tables(tables, notes)


def _newest(keyed: pl.DataFrame) -> tuple[pl.DataFrame, tuple[str, ...]]:
    """Keep the rows of each run's highest revision; null is 0."""
    if keyed["revision"].null_count() == keyed.height:
        return keyed, ()
    revision = pl.col("revision").fill_null(0)
    newest = keyed.filter(revision == revision.max().over(*RUN_KEY))
    lost = keyed.height - newest.height
    if not lost:
        return keyed, ()
    note = f"{counted(lost, 'row')} of an older revision gave way to a newer one of the same file"
    return newest, (note,)


def _merged(keyed: pl.DataFrame, feed: Feed) -> tuple[pl.DataFrame, tuple[str, ...]]:
    """One row a run; only runs of several rows are grouped, for they are few."""
    several = repeated(keyed, RUN_KEY)
    test = pl.lit(feed.test).alias("test")
    if not several.any():
        return selected(keyed.with_columns(test), RUN_COLUMNS), ()
    merged = _grouped(keyed.filter(several))
    parts = (keyed.filter(~several), merged)
    tables = [selected(part.with_columns(test), RUN_COLUMNS) for part in parts]
    return pl.concat(tables), _disagreements(merged)


def _grouped(rows: pl.DataFrame) -> pl.DataFrame:
    firsts = [
        pl.col(name).first(ignore_nulls=True)
        for name in RUN_COLUMNS
        if name in rows.columns and name not in (*RUN_KEY, "result", FILE_ROW)
    ]
    ranks = pl.col("result").replace_strict(_RANKS, return_dtype=pl.Int8)
    worst = ranks.min().replace_strict(
        {rank: result for result, rank in _RANKS.items()}, return_dtype=pl.String
    )
    return rows.group_by(RUN_KEY, maintain_order=True).agg(
        *firsts,
        worst.alias("result"),
        pl.col(FILE_ROW).first(),
        (pl.col("result").n_unique() > 1).alias("results differ"),
        (pl.col("vin").drop_nulls().n_unique() > 1).alias("vins differ"),
    )


def _disagreements(merged: pl.DataFrame) -> tuple[str, ...]:
    results, vins = (int(merged[name].sum()) for name in ("results differ", "vins differ"))
    notes = []
    if results:
        order = ", ".join(WORST_FIRST)
        notes.append(
            f"result: rows of {counted(results, 'run')} disagree; the worst counts ({order})"
        )
    if vins:
        runs = counted(vins, "run")
        notes.append(f"vin: rows of {runs} disagree though run_ref is one; the first was taken")
    return tuple(notes)


def _conditions(keyed: pl.DataFrame, feed: Feed) -> pl.DataFrame:
    """The declared conditions among the columns, as readings."""
    names = [name for name in feed.conditions if keyed[name].null_count() < keyed.height]
    if not names:
        return no_readings()
    return readings_of(unpivoted(keyed, names), feed)[0]


def _codeless(keyed: pl.DataFrame) -> tuple[str, ...]:
    """Say of rows that tell where or how much, but not what, that they are no findings."""
    told = pl.any_horizontal(pl.col(name).is_not_null() for name in _FINDING_CELLS)
    rows = keyed.select((pl.col("code").is_null() & told).sum()).item()
    note = f"code: {counted(rows, 'row')} with a zone, step or severity but no code made no finding"
    return (note,) if rows else ()
