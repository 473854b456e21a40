-- Since when anything is known of the units in scope
-- One row; first_run_id is the lowest run id that can be theirs. A day of margin covers clock offsets. Reads: scope.
SELECT
    count(*) AS units,
    coalesce(cast(floor(epoch(min(earliest_at) - INTERVAL 1 DAY)) AS BIGINT) * 1073741824, 0) AS first_run_id,
    coalesce(min(earliest_at), TIMESTAMPTZ '1900-01-01') AS earliest_at
FROM scope;
