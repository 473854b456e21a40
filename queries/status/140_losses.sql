-- losses: what does not count, was refused, waits or escaped; since a shift began, and in all
-- One row. A row refused or waiting is new by the load of its file. Rules 2, 4 to 6, 14 and 17.
-- Reads: run, rejected_row, waiting_finding, waiting_reading, source_file, escape.
WITH fresh_file AS (
    SELECT source_file.file_id, source_file.rows
    FROM source_file
    WHERE source_file.loaded_at >= $starts_at
),

uncounted AS (
    SELECT
        count(*) AS void_all,
        count(*) FILTER (WHERE run."at" >= $starts_at AND run.void_reason <> 'suspect_double') AS void_new,
        count(*) FILTER (WHERE run.void_reason = 'suspect_double') AS double_all,
        count(*) FILTER (WHERE run.void_reason = 'suspect_double' AND fresh_file.file_id IS NOT NULL) AS double_new
    FROM run
    LEFT JOIN fresh_file ON fresh_file.file_id = run.file_id
    WHERE NOT run.counts
),

refused AS (
    SELECT
        count(*) FILTER (WHERE rejected_row.waits_for IS NULL) AS rejected_all,
        count(fresh_file.file_id) FILTER (WHERE rejected_row.waits_for IS NULL) AS rejected_new,
        count(*) FILTER (WHERE rejected_row.waits_for IS NOT NULL) AS waiting_all,
        count(fresh_file.file_id) FILTER (WHERE rejected_row.waits_for IS NOT NULL) AS waiting_new
    FROM rejected_row
    LEFT JOIN fresh_file ON fresh_file.file_id = rejected_row.file_id
),

parts AS (
    SELECT
        count(*) AS parts_all,
        count(fresh_file.file_id) AS parts_new
    FROM (
        SELECT waiting_finding.file_id FROM waiting_finding
        UNION ALL
        SELECT waiting_reading.file_id FROM waiting_reading
    ) AS part
    LEFT JOIN fresh_file ON fresh_file.file_id = part.file_id
),

escaped AS (
    SELECT
        count(*) AS escape_all,
        count(*) FILTER (WHERE escape.event_at >= $starts_at) AS escape_new
    FROM escape
)

SELECT
    uncounted.void_all,
    uncounted.void_new,
    uncounted.double_all,
    uncounted.double_new,
    refused.rejected_all,
    refused.rejected_new,
    (SELECT CAST(coalesce(sum(fresh_file.rows), 0) AS BIGINT) FROM fresh_file) AS rows_new,
    refused.waiting_all,
    refused.waiting_new,
    parts.parts_all,
    parts.parts_new,
    escaped.escape_all,
    escaped.escape_new
FROM uncounted
CROSS JOIN refused
CROSS JOIN parts
CROSS JOIN escaped;
