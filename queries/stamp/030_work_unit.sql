-- Units in scope, from the units feed, events and corrections (rules 1, 11, 17)
-- One row is a unit in scope that anything is known of; of each column the highest-ranked told value. Writes: work_event, work_unit.
-- Reads: scope, unit_sent, event, repair, attribute, correction, work_run, file_rank. Parameter: earliest_at.
CREATE OR REPLACE TEMP TABLE work_event AS
SELECT *
FROM event
WHERE "at" >= $earliest_at AND vin IN (SELECT vin FROM scope);

CREATE OR REPLACE TEMP TABLE work_unit AS
WITH told AS (
    SELECT
        s.vin,
        arg_max(s.build_seq, f.rank + s.file_row) AS build_seq,
        arg_max(s.model, f.rank + s.file_row) AS model,
        arg_max(s.line, f.rank + s.file_row) AS line,
        arg_max(s.kind, f.rank + s.file_row) AS kind,
        arg_max(s.line_off_at, f.rank + s.file_row) AS line_off_at,
        arg_max(s.file_id, f.rank + s.file_row) AS file_id,
        arg_max(s.file_row, f.rank + s.file_row) AS file_row
    FROM unit_sent AS s
    INNER JOIN file_rank AS f ON s.file_id = f.file_id
    WHERE
        (s.line_off_at IS NULL OR s.line_off_at >= $earliest_at)
        AND s.vin IN (SELECT vin FROM scope)
    GROUP BY s.vin
),

off_line AS (
    SELECT vin, min("at") AS line_off_at
    FROM work_event
    WHERE kind = 'line_off'
    GROUP BY vin
),

mended AS (
    SELECT
        vin,
        max_by(value, made_at) FILTER (field = 'model') AS model,
        max_by(value, made_at) FILTER (field = 'line') AS line,
        max_by(value, made_at) FILTER (field = 'kind') AS kind,
        max_by(value, made_at) FILTER (field = 'build_seq') AS build_seq,
        max_by(value, made_at) FILTER (field = 'line_off_at') AS line_off_at
    FROM correction
    WHERE vin IS NOT NULL AND run_id IS NULL
    GROUP BY vin
),

known AS (
    SELECT vin FROM told
    UNION
    SELECT vin FROM work_run
    UNION
    SELECT vin FROM work_event
    UNION
    SELECT vin FROM repair WHERE vin IN (SELECT vin FROM scope)
    UNION
    SELECT vin FROM attribute
    WHERE ("at" IS NULL OR "at" >= $earliest_at) AND vin IN (SELECT vin FROM scope)
)

SELECT
    k.vin,
    coalesce(try_cast(m.build_seq AS BIGINT), t.build_seq) AS build_seq,
    coalesce(m.model, t.model) AS model,
    coalesce(m.line, t.line) AS line,
    coalesce(m.kind, t.kind, 'production') AS kind,
    coalesce(try_cast(m.line_off_at AS TIMESTAMPTZ), t.line_off_at, o.line_off_at) AS line_off_at,
    t.vin IS NOT NULL AS in_schedule,
    s.earliest_at,
    t.file_id,
    t.file_row
FROM known AS k
INNER JOIN scope AS s ON k.vin = s.vin
LEFT JOIN told AS t ON k.vin = t.vin
LEFT JOIN off_line AS o ON k.vin = o.vin
LEFT JOIN mended AS m ON k.vin = m.vin;
