-- as_of: the data clock
-- One row. Source: DESIGN, the data clock: the newest run end or event time received, never later than the load.
-- Reads: run, event, source_file.
CREATE OR REPLACE VIEW as_of AS
WITH newest AS (
    SELECT max(run."at") AS seen_at FROM run
    UNION ALL
    SELECT max(event."at") AS seen_at FROM event
),

loaded AS (
    SELECT max(source_file.loaded_at) AS loaded_at FROM source_file
)

SELECT CASE WHEN max(newest.seen_at) > max(loaded.loaded_at) THEN max(loaded.loaded_at) ELSE max(newest.seen_at) END AS as_of
FROM newest
CROSS JOIN loaded;

COMMENT ON VIEW as_of IS
    'One row is the data clock: the newest run end or event time received, never later than the load.';
COMMENT ON COLUMN as_of.as_of IS 'the data clock (UTC); null while nothing is loaded.';
