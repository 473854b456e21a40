"""A store with many attributes of many units, written straight into its tables: one value of one leaks."""

from __future__ import annotations

from pathlib import Path

from eol.store.connect import open_file
from eol.store.schema import prepare_schema

GUILTY = ("attribute 3", "v1")
"""The attribute and its value that have the defect twelve times as often."""

UNITS = """
CREATE TEMP TABLE made AS
SELECT
    n, lpad(CAST(n AS VARCHAR), 17, '0') AS vin, n + 1000000000 AS run_id,
    TIMESTAMPTZ '2026-01-05 06:00:00+00' + n * INTERVAL '72' SECOND AS off_at,
    CAST(TIMESTAMP '2026-01-05 06:00:00' + n * INTERVAL '72' SECOND AS DATE) AS day,
    CAST((n // 400) % 3 AS VARCHAR) AS shift,
    ['WAG', 'WAGL', 'VAN'][1 + CAST(hash(concat(n, 'model')) % 3 AS INTEGER)] AS model,
    hash(concat(n, 'defect')) % 100000
    < 100000 * $share * CASE WHEN hash(concat(n, '/', 3)) % 8 = 1 THEN 12 ELSE 1 END AS defect
FROM range($units) AS t (n);

INSERT INTO plant_setting (name, timezone) VALUES ('Quillbrook', 'Europe/Berlin');

INSERT INTO source_file (file_id, loaded_at) VALUES (1, TIMESTAMPTZ '2030-01-01 00:00:00+00');

INSERT INTO unit BY NAME
SELECT
    vin, n AS build_seq, model, 'F1' AS line, 'production' AS kind, off_at AS line_off_at, true AS in_schedule,
    day AS line_date, shift AS line_shift, off_at AS earliest_at
FROM made;

INSERT INTO run BY NAME
SELECT
    run_id, vin, 'water' AS test, 'W' AS station, ['A', 'B', 'C'][1 + n % 3] AS bay, 'P1' AS program,
    off_at + INTERVAL '1' HOUR AS started_at, CASE WHEN defect THEN 'fail' ELSE 'pass' END AS result,
    off_at + INTERVAL '1' HOUR AS "at", true AS counts, 1 AS attempt, day AS production_date, shift,
    'production' AS kind, model, 'F1' AS line, n AS build_seq, off_at AS earliest_at
FROM made;

INSERT INTO finding BY NAME
SELECT
    run_id, 'LEAK' AS code, 'RR-QTR' AS zone, 'rear' AS step, 'defect' AS counts_as, 'water' AS test, vin,
    off_at + INTERVAL '1' HOUR AS "at", 'production' AS kind, day AS production_date,
    day AS line_date, shift AS line_shift
FROM made
WHERE defect;

INSERT INTO attribute BY NAME
SELECT
    vin, 'attribute ' || a AS name, off_at - INTERVAL '1' DAY AS "at", 'body shop' AS source,
    CASE WHEN a % 3 < 2 THEN 'v' || (hash(concat(n, '/', a)) % 8) END AS text_value,
    CASE WHEN a % 3 = 2 THEN CAST(hash(concat(n, '/', a)) % 1000 AS DOUBLE) / 100 END AS number_value,
    CASE WHEN a % 3 = 2 THEN 'mm' END AS measure_unit
FROM made
CROSS JOIN range($attributes) AS t (a);
"""


def traced_plant(path: Path, *, attributes: int, units: int, share: float) -> None:
    """Make a store file whose code LEAK comes from one value of one attribute.

    Args:
        path: the file to make.
        attributes: how many, at least 4; two thirds categories of eight values, the rest numbers.
        units: how many, 400 a shift.
        share: share of units with the defect where the guilty value is not.
    """
    with open_file(path) as store:
        prepare_schema(store)
        values = {"attributes": attributes, "units": units, "share": share}
        for statement in filter(str.strip, UNITS.split(";")):
            store.query(statement, values)
