-- Attempts, and the stamped run (rule 7)
-- One row is a run in scope with all its stamps. Writes: stamped_run, and run where a stamp differs.
-- Reads: work_run, work_void, run_shift. Parameter: first_run_id.
CREATE OR REPLACE TEMP TABLE stamped_run AS
SELECT
    w.*,
    v.void_reason IS NULL AS counts,
    v.void_reason,
    CASE
        WHEN v.void_reason IS NULL
            THEN row_number() OVER (
                PARTITION BY w.vin, w.test, v.void_reason IS NULL
                ORDER BY w."at", w.started_at, w.run_id
            )
    END AS attempt,
    s.production_date,
    s.shift
FROM work_run AS w
INNER JOIN work_void AS v ON w.run_id = v.run_id
INNER JOIN run_shift AS s ON w.run_id = s.run_id;

UPDATE run AS r
SET
    vin = s.vin,
    started_at = s.started_at,
    ended_at = s.ended_at,
    result = s.result,
    "at" = s."at",
    counts = s.counts,
    void_reason = s.void_reason,
    attempt = s.attempt,
    production_date = s.production_date,
    shift = s.shift
FROM stamped_run AS s
WHERE
    r.run_id = s.run_id AND r.run_id >= $first_run_id
    AND (
        r.vin, r.started_at, r.ended_at, r.result, r."at", r.counts, r.void_reason, r.attempt,
        r.production_date, r.shift
    ) IS DISTINCT FROM (
        s.vin, s.started_at, s.ended_at, s.result, s."at", s.counts, s.void_reason, s.attempt,
        s.production_date, s.shift
    );
