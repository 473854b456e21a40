-- Findings or readings that came in the file of their runs
-- One row is one of them, with the run's id. Writes: incoming_part. Parameter: file_id.
CREATE OR REPLACE TEMP TABLE incoming_part AS
SELECT
    * EXCLUDE (vin, test, station, started_at, run_ref),
    $file_id AS file_id
FROM arriving;
