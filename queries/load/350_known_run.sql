-- Runs of the store, and those that have come and are not stored yet
-- One row is the winning version of a run. Writes: known_run (a temporary view). Reads: run, arrived_run.
CREATE OR REPLACE TEMP VIEW known_run AS
SELECT
    run_id,
    vin,
    test,
    station,
    run_ref,
    started_at,
    ended_at,
    result,
    last_step,
    vin_sent,
    started_at_sent,
    ended_at_sent,
    result_sent,
    file_id
FROM run
UNION ALL
SELECT
    run_id,
    vin,
    test,
    station,
    run_ref,
    started_at,
    ended_at,
    result,
    last_step,
    vin AS vin_sent,
    started_at AS started_at_sent,
    ended_at AS ended_at_sent,
    result AS result_sent,
    file_id
FROM arrived_run;
