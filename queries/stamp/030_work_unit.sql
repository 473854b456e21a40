-- Units in scope, from the units feed, events and corrections (rules 1, 11, 13, 17)
-- One row is a unit in scope that anything is known of; of each column the highest-ranked told value.
-- Writes: work_event, work_repair, work_unit. Reads: scope, unit_sent, event, repair, attribute, correction, reference,
-- work_run, file_rank. Parameter: earliest_at.
CREATE OR REPLACE TEMP TABLE work_event AS
SELECT e.*, s.unit_no
FROM event AS e
INNER JOIN scope AS s ON e.vin = s.vin
WHERE e."at" >= $earliest_at;

CREATE OR REPLACE TEMP TABLE work_repair AS
SELECT r.*, s.unit_no, coalesce(r.ended_at, r.started_at, r.entered_at) AS repaired_at
FROM repair AS r
INNER JOIN scope AS s ON r.vin = s.vin
WHERE
    (r.ended_at IS NULL OR r.ended_at >= $earliest_at) AND (r.started_at IS NULL OR r.started_at >= $earliest_at)
    AND (r.entered_at IS NULL OR r.entered_at >= $earliest_at);

CREATE OR REPLACE TEMP TABLE work_unit AS
WITH sent AS (
    SELECT s.unit_no, s.vin, s.earliest_at, u.build_seq, u.model, u.line, u.kind, u.line_off_at, u.file_id, u.file_row, f.rank + u.file_row AS rank
    FROM unit_sent AS u
    INNER JOIN scope AS s ON u.vin = s.vin
    INNER JOIN file_rank AS f ON u.file_id = f.file_id
    WHERE u.line_off_at IS NULL OR u.line_off_at >= $earliest_at
),

twice AS (
    SELECT unit_no
    FROM sent
    GROUP BY unit_no
    HAVING count(*) > 1
),

told AS (
    SELECT * EXCLUDE (rank) FROM sent AS s
    ANTI JOIN twice AS t ON s.unit_no = t.unit_no
    UNION ALL BY NAME
    SELECT
        s.unit_no,
        any_value(s.vin) AS vin,
        any_value(s.earliest_at) AS earliest_at,
        arg_max(s.build_seq, s.rank) AS build_seq,
        arg_max(s.model, s.rank) AS model,
        arg_max(s.line, s.rank) AS line,
        arg_max(s.kind, s.rank) AS kind,
        arg_max(s.line_off_at, s.rank) AS line_off_at,
        arg_max(s.file_id, s.rank) AS file_id,
        arg_max(s.file_row, s.rank) AS file_row
    FROM sent AS s
    INNER JOIN twice AS t ON s.unit_no = t.unit_no
    GROUP BY s.unit_no
),

off_line AS (
    SELECT unit_no, min("at") AS line_off_at
    FROM work_event
    WHERE kind = 'line_off'
    GROUP BY unit_no
),

mended AS (
    SELECT
        s.unit_no,
        max_by(c.value, c.made_at) FILTER (c.field = 'model') AS model,
        max_by(c.value, c.made_at) FILTER (c.field = 'line') AS line,
        max_by(c.value, c.made_at) FILTER (c.field = 'kind') AS kind,
        max_by(c.value, c.made_at) FILTER (c.field = 'build_seq') AS build_seq,
        max_by(c.value, c.made_at) FILTER (c.field = 'line_off_at') AS line_off_at
    FROM correction AS c
    INNER JOIN scope AS s ON c.vin = s.vin
    WHERE c.run_id IS NULL
    GROUP BY s.unit_no
),

-- Of units without a row of the units feed: those that anything else tells of.
unsent AS (
    SELECT s.unit_no, s.vin, s.earliest_at
    FROM scope AS s
    ANTI JOIN told AS t ON s.unit_no = t.unit_no
),

known AS (
    SELECT * FROM told
    UNION ALL BY NAME
    SELECT u.unit_no, u.vin, u.earliest_at
    FROM unsent AS u
    SEMI JOIN (
        SELECT unit_no FROM work_run
        UNION ALL
        SELECT unit_no FROM work_event
        UNION ALL
        SELECT unit_no FROM work_repair
        UNION ALL
        SELECT o.unit_no
        FROM attribute AS a
        INNER JOIN unsent AS o ON a.vin = o.vin
        WHERE a."at" IS NULL OR a."at" >= $earliest_at
    ) AS w ON u.unit_no = w.unit_no
)

SELECT
    k.vin,
    k.unit_no,
    coalesce(try_cast(m.build_seq AS BIGINT), k.build_seq) AS build_seq,
    coalesce(m.model, k.model) AS model,
    coalesce(m.line, k.line) AS line,
    coalesce(m.kind, k.kind, CASE WHEN k.vin IN (SELECT vin FROM reference) THEN 'reference' END, 'production') AS kind,
    coalesce(try_cast(m.line_off_at AS TIMESTAMPTZ), k.line_off_at, o.line_off_at) AS line_off_at,
    k.file_id IS NOT NULL AS in_schedule,
    k.earliest_at,
    k.file_id,
    k.file_row
FROM known AS k
LEFT JOIN off_line AS o ON k.unit_no = o.unit_no
LEFT JOIN mended AS m ON k.unit_no = m.unit_no;
