-- Attempts, and the stamped run (rule 7)
-- One row is a run in scope with all its stamps; last: its unit has no later counted run of the test.
-- Writes: stamped_run; run where a stamp differs, and runs that have come.
-- Reads: arrived_run, work_run, work_unit, several, work_void, shift_change.
-- Parameter: first_run_id.
CREATE OR REPLACE TEMP TABLE stamped_run AS
WITH judged AS (
    SELECT
        w.*,
        v.void_reason IS NULL AS counts,
        v.void_reason,
        coalesce(c.production_date, cast(w."at" AT TIME ZONE p.timezone AS DATE)) AS production_date,
        c.shift,
        u.kind,
        u.model,
        u.line,
        u.build_seq,
        u.earliest_at
    FROM work_run AS w
    CROSS JOIN plant_setting AS p
    LEFT JOIN work_unit AS u ON w.unit_no = u.unit_no
    ASOF LEFT JOIN shift_change AS c ON w."at" >= c."at"
    LEFT JOIN work_void AS v ON w.run_id = v.run_id
),

ranked AS (
    SELECT
        j.*,
        row_number() OVER (PARTITION BY j.key, j.counts ORDER BY j."at", j.started_at, j.run_id) AS place,
        count(*) OVER (PARTITION BY j.key, j.counts) AS places
    FROM judged AS j
    SEMI JOIN several AS s ON j.key = s.key
)

SELECT j.*, CASE WHEN j.counts THEN 1 END AS attempt, j.counts AS last
FROM judged AS j
ANTI JOIN several AS s ON j.key = s.key
UNION ALL
SELECT r.* EXCLUDE (place, places), CASE WHEN r.counts THEN r.place END AS attempt, r.counts AND r.place = r.places AS last
FROM ranked AS r;

-- What was sent is mended in few runs.
UPDATE run AS r
SET vin = coalesce(s.vin, r.vin), started_at = s.started_at, ended_at = s.ended_at, result = s.result
FROM stamped_run AS s
WHERE
    r.run_id = s.run_id AND r.run_id >= $first_run_id
    AND s.mended
    AND (
        r.vin <> s.vin OR r.result <> s.result OR r.started_at <> s.started_at
        OR r.ended_at IS DISTINCT FROM s.ended_at
    );

UPDATE run AS r
SET
    "at" = s."at",
    counts = s.counts,
    void_reason = s.void_reason,
    attempt = s.attempt,
    production_date = s.production_date,
    shift = s.shift,
    kind = s.kind,
    model = s.model,
    line = s.line,
    build_seq = s.build_seq,
    earliest_at = s.earliest_at
FROM stamped_run AS s
WHERE
    r.run_id = s.run_id AND r.run_id >= $first_run_id
    AND (
        r."at" IS DISTINCT FROM s."at" OR r.counts IS DISTINCT FROM s.counts
        OR r.void_reason IS DISTINCT FROM s.void_reason OR r.attempt IS DISTINCT FROM s.attempt
        OR r.production_date IS DISTINCT FROM s.production_date OR r.shift IS DISTINCT FROM s.shift
        OR r.kind IS DISTINCT FROM s.kind OR r.model IS DISTINCT FROM s.model OR r.line IS DISTINCT FROM s.line
        OR r.build_seq IS DISTINCT FROM s.build_seq OR r.earliest_at IS DISTINCT FROM s.earliest_at
    );

-- A run that came without a rival is stored with its stamps.
INSERT INTO run BY NAME
SELECT
    a.* EXCLUDE (vin, started_at, ended_at, result),
    coalesce(s.vin, a.vin) AS vin,
    coalesce(s.started_at, a.started_at) AS started_at,
    coalesce(s.ended_at, a.ended_at) AS ended_at,
    coalesce(s.result, a.result) AS result,
    a.vin AS vin_sent,
    a.started_at AS started_at_sent,
    a.ended_at AS ended_at_sent,
    a.result AS result_sent,
    s."at",
    s.counts,
    s.void_reason,
    s.attempt,
    s.production_date,
    s.shift,
    s.kind,
    s.model,
    s.line,
    s.build_seq,
    s.earliest_at
FROM arrived_run AS a
LEFT JOIN stamped_run AS s ON a.run_id = s.run_id;
