-- file_delays: how long after the last run of a station its files were made
-- One row is a file x station with a run between $from_at and $to_at; delay is in seconds, negative where the file is
-- older than a run in it. shift_runs, first_at, last_at and bays are of its runs in the shift. Doubles of rule 2 are left out.
-- Reads: run, source_file.
SELECT
    run.test,
    run.station,
    source_file.path,
    source_file.made_at,
    date_diff('second', date_trunc('second', max(run."at")), date_trunc('second', source_file.made_at)) AS delay,
    count(*) FILTER (WHERE run.production_date = $production_date AND run.shift = $shift) AS shift_runs,
    min(run."at") FILTER (WHERE run.production_date = $production_date AND run.shift = $shift) AS first_at,
    max(run."at") FILTER (WHERE run.production_date = $production_date AND run.shift = $shift) AS last_at,
    min(run.bay) FILTER (WHERE run.production_date = $production_date AND run.shift = $shift) AS first_bay,
    count(DISTINCT run.bay) FILTER (WHERE run.production_date = $production_date AND run.shift = $shift) AS bays
FROM run
INNER JOIN source_file ON source_file.file_id = run.file_id
WHERE
    run."at" >= $from_at
    AND run."at" < $to_at
    AND run.void_reason IS DISTINCT FROM 'suspect_double'
GROUP BY run.test, run.station, source_file.file_id, source_file.path, source_file.made_at
ORDER BY run.test, run.station, source_file.made_at, source_file.path;
