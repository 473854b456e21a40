-- how_late_files_come: how long after the run its file was made, and how long until it was loaded
-- One row is a test x station x production date. What was late yesterday explains why yesterday's figures moved.
-- Set: first_date = null
-- Reads: run, source_file.
SELECT
    run.test,
    run.station,
    run.production_date,
    count(*) AS runs,
    count(DISTINCT run.file_id) AS files,
    median(date_diff('second', run."at", source_file.made_at)) / 3600 AS hours_to_file_median,
    max(date_diff('second', run."at", source_file.made_at)) / 3600 AS hours_to_file_longest,
    median(date_diff('second', source_file.made_at, source_file.loaded_at)) / 3600 AS hours_to_load_median
FROM run
INNER JOIN source_file ON source_file.file_id = run.file_id
WHERE CAST($first_date AS DATE) IS NULL OR run.production_date >= CAST($first_date AS DATE)
GROUP BY run.test, run.station, run.production_date
ORDER BY run.test, run.station, run.production_date;
