"""The floor: one bare DuckDB query for FTT by shift over the same files, with no rule and nothing kept."""

from __future__ import annotations

import sys

import duckdb

TEXT = """
WITH run AS (
    SELECT *, ended_at AT TIME ZONE 'Europe/Berlin' - INTERVAL 6 HOUR AS local
    FROM read_parquet(?, union_by_name => true)
)
SELECT cast(local AS DATE) AS day, floor(hour(local) / 8) AS shift, station, avg(first::INT)
FROM (
    SELECT *, result = 'pass' AS first
    FROM run
    QUALIFY row_number() OVER (PARTITION BY vin, station[1] ORDER BY started_at) = 1
)
GROUP BY ALL
"""
print(len(duckdb.execute(TEXT, [sys.argv[1:]]).fetchall()))
