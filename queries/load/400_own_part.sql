-- Findings or readings that came in the file of their runs
-- One row is one of them, with the run's id: mostly that of the run's own row, else found by what names the run.
-- Writes: incoming_part. Parameter: file_id.
CREATE OR REPLACE TEMP TABLE incoming_part AS
SELECT
    i.run_id,
    a.* EXCLUDE (vin, test, station, started_at, run_ref),
    $file_id AS file_id
FROM arriving AS a
INNER JOIN incoming_run AS i ON a.file_row = i.file_row
UNION ALL
SELECT
    i.run_id,
    a.* EXCLUDE (vin, test, station, started_at, run_ref),
    $file_id AS file_id
FROM arriving AS a
ANTI JOIN incoming_run AS o ON a.file_row = o.file_row
INNER JOIN incoming_run AS i
    ON
        a.vin = i.vin AND a.station = i.station AND a.test = i.test
        AND a.run_ref IS NOT DISTINCT FROM i.run_ref
        AND (a.run_ref IS NOT NULL OR date_trunc('second', a.started_at) = date_trunc('second', i.started_at));
