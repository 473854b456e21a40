-- Runs of a shift that came by files loaded after a moment
-- One row: their number. Parameters: production_date, shift, made_at. Reads: run, source_file.
SELECT count(*) AS runs
FROM run
INNER JOIN source_file ON source_file.file_id = run.file_id
WHERE
    run.production_date = $production_date
    AND run.shift IS NOT DISTINCT FROM $shift
    AND source_file.loaded_at > $made_at;
