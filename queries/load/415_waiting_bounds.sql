-- How many findings or readings wait, and between which run ids their runs would lie
-- One row. Places: waiting.
SELECT
    count(*) AS waiting,
    coalesce(cast(floor(epoch(min(started_at))) AS BIGINT) * 1073741824, 0) AS first_run_id,
    coalesce((cast(floor(epoch(max(started_at))) AS BIGINT) + 1) * 1073741824, 0) AS last_run_id,
    count(run_ref) > 0 AS named
FROM {waiting};
