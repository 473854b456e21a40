-- condition_run: the readings of one condition in one bay, in the order of time
-- One row is a reading of a run that ended from $from_at up to $until (UTC).
-- Parameters: test, station, bay, name. Reads: run, reading.
SELECT
    run.production_date,
    run.shift,
    reading."value"
FROM run
INNER JOIN reading ON reading.run_id = run.run_id
WHERE
    run.test = $test
    AND run.station = $station
    AND run.bay IS NOT DISTINCT FROM $bay
    AND reading.name = $name
    AND run."at" >= CAST($from_at AS TIMESTAMPTZ)
    AND run."at" < CAST($until AS TIMESTAMPTZ)
    AND run.result IN ('pass', 'fail')
    AND isfinite(reading."value")
ORDER BY run."at", run.run_id, reading.sample;
