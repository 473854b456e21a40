-- When each station last sent a run (rules 11 and 14)
-- One row is a test and station. Runs that came without a rival add to what was heard before; where any other run moved
-- or went, all are looked through. Those that came stand in run by now: of arrived_run only their number is asked.
-- Writes: station_heard. Reads: station_heard, moved_run, arrived_run, run. Parameter: first_run_id.
CREATE OR REPLACE TEMP TABLE heard_now AS
WITH told AS (
    SELECT
        (SELECT runs FROM moved_run) = 0
        AND (SELECT count(*) FROM run)
        = (SELECT coalesce(sum(row_count), 0) FROM station_heard) + (SELECT count(*) FROM arrived_run) AS adds
),

heard AS (
    SELECT test, station, last_at, row_count
    FROM station_heard
    WHERE (SELECT adds FROM told)
    UNION ALL
    SELECT test, station, NULL AS last_at, count(*) AS row_count
    FROM arrived_run
    WHERE (SELECT adds FROM told)
    GROUP BY test, station
    UNION ALL
    SELECT test, station, max("at") AS last_at, 0 AS row_count
    FROM run
    WHERE run_id >= $first_run_id AND (SELECT adds FROM told)
    GROUP BY test, station
    UNION ALL
    SELECT test, station, max("at") AS last_at, count(*) AS row_count
    FROM run
    WHERE NOT (SELECT adds FROM told)
    GROUP BY test, station
)

SELECT test, station, max(last_at) AS last_at, cast(sum(row_count) AS BIGINT) AS row_count
FROM heard
GROUP BY test, station;

DELETE FROM station_heard;

INSERT INTO station_heard
SELECT test, station, last_at, row_count
FROM heard_now;
