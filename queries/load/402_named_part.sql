-- Findings or readings of rows that are not the first of their run, found by what names it
-- One row is one of them, with the run's id. Reads: arriving, incoming_run.
SELECT a.*, i.run_id
FROM arriving AS a
INNER JOIN incoming_run AS i
    ON
        a.vin = i.vin AND a.station = i.station AND a.test = i.test
        AND a.run_ref IS NOT DISTINCT FROM i.run_ref
        AND (a.run_ref IS NOT NULL OR date_trunc('second', a.started_at) = date_trunc('second', i.started_at));
