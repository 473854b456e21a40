"""Reads the published copy as a client without this package does; as read.mjs, by the clock of the file."""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path

import duckdb

TOLD = """
SELECT
    (SELECT count(*) FROM run) AS runs,
    (SELECT sum(tested) FROM ftt_by_shift WHERE test = 'water')::BIGINT AS tested"""
WORDS = """,
    (SELECT epoch_ms(min(started_at)) FROM run) AS first_ms,
    (SELECT comment FROM duckdb_views() WHERE view_name = 'ftt_by_shift') AS words,
    (SELECT comment FROM duckdb_columns() WHERE table_name = 'open_unit' AND column_name = 'hours')"""


def rows(copy: str, statement: str) -> tuple[object, ...]:
    """The one row of a statement, from a connection of its own."""
    with duckdb.connect(copy, read_only=True) as connection:
        return connection.execute(statement).fetchall()[0]


def main(copy: str, stop: str = "") -> None:
    """Print what the copy says once, or its two counts again and again until a file stands."""
    if not stop:
        names = ("runs", "tested", "first_ms", "words", "column_words")
        sys.stdout.write(json.dumps(dict(zip(names, rows(copy, TOLD + WORDS), strict=True))))
    while stop and not Path(stop).exists():
        runs, tested = rows(copy, TOLD)
        sys.stdout.write(f"{runs} {tested or 0}\n")
        time.sleep(0.3)


main(*sys.argv[1:])
