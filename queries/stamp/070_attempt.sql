-- Attempts, and the stamped run (rule 7)
-- One row is a run in scope with all its stamps; last: its unit has no later counted run of the test.
-- Writes: work_attempt, stamped_run, moved_run; run where a stamp differs, and runs that have come.
-- Reads: arrived_run, work_run, work_unit, several, work_void, shift_hour, plant_setting.
-- The updates name no first_run_id: by that bound the optimizer turns the join round and rows come out of order, which
-- makes an update thirty times as long.
CREATE OR REPLACE TEMP TABLE work_attempt AS
SELECT
    w.run_id,
    row_number() OVER (PARTITION BY w.key ORDER BY w."at", w.started_at, w.run_id) AS attempt,
    count(*) OVER (PARTITION BY w.key) AS attempts
FROM work_run AS w
SEMI JOIN several AS s ON w.key = s.key
ANTI JOIN work_void AS v ON w.run_id = v.run_id;

CREATE OR REPLACE TEMP TABLE stamped_run AS
SELECT
    w.run_id,
    w.vin,
    w.mended,
    w.unit_no,
    w.key,
    w.test,
    w.started_at,
    w.ended_at,
    w.result,
    w."at",
    w.last_step,
    v.run_id IS NULL AS counts,
    v.void_reason,
    coalesce(h.production_date, cast(w."at" AT TIME ZONE p.timezone AS DATE)) AS production_date,
    h.shift,
    CASE WHEN v.run_id IS NULL THEN coalesce(a.attempt, 1) END AS attempt,
    v.run_id IS NULL AND a.attempt IS NOT DISTINCT FROM a.attempts AS last
FROM work_run AS w
CROSS JOIN plant_setting AS p
LEFT JOIN shift_hour AS h
    ON
        least(epoch_us(w."at") // 3600000000, (SELECT max(hour) FROM shift_hour)) = h.hour
        AND w."at" >= h.starts_at AND w."at" < h.ends_at
LEFT JOIN work_void AS v ON w.run_id = v.run_id
LEFT JOIN work_attempt AS a ON w.run_id = a.run_id;

DROP TABLE work_run;

-- The stamps of a run with those it takes over from its unit.
CREATE OR REPLACE TEMP VIEW run_stamp AS
SELECT s.*, u.kind, u.model, u.line, u.build_seq, u.earliest_at
FROM stamped_run AS s
LEFT JOIN work_unit AS u ON s.unit_no = u.unit_no;

-- Stored runs whose end is another now: the last that a station sent may be one of them.
CREATE OR REPLACE TEMP TABLE moved_run AS
SELECT count(*) AS runs
FROM run AS r
INNER JOIN stamped_run AS s ON r.run_id = s.run_id
WHERE r."at" IS DISTINCT FROM s."at";

-- What was sent is mended in few runs.
UPDATE run AS r
SET vin = coalesce(s.vin, r.vin), started_at = s.started_at, ended_at = s.ended_at, result = s.result
FROM stamped_run AS s
WHERE
    r.run_id = s.run_id
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
FROM run_stamp AS s
WHERE
    r.run_id = s.run_id
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
LEFT JOIN run_stamp AS s ON a.run_id = s.run_id;
