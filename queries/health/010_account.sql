-- What plant IT looks at that the copy knows: rows by time, mails that have not left, the schema
-- One row. recent_rows are the rows of files made in the 30 days before the newest one; unsent mails are waiting or refused.
-- Reads: source_file, report_sent, schema_version.
WITH newest AS (
    SELECT max(source_file.made_at) AS made_at FROM source_file
),

held AS (
    SELECT
        CAST(coalesce(sum(source_file.rows), 0) AS BIGINT) AS file_rows,
        CAST(
            coalesce(sum(source_file.rows) FILTER (WHERE source_file.made_at > newest.made_at - INTERVAL 30 DAY), 0) AS BIGINT
        ) AS recent_rows,
        max(source_file.loaded_at) AS last_loaded_at
    FROM source_file
    CROSS JOIN newest
),

unsent AS (
    SELECT
        count(*) FILTER (WHERE report_sent.state IN ('waiting', 'refused')) AS mails,
        count(*) FILTER (WHERE report_sent.state = 'failed') AS failed
    FROM report_sent
)

SELECT
    held.file_rows,
    held.recent_rows,
    held.last_loaded_at,
    unsent.mails AS mails_unsent,
    unsent.failed AS mails_failed,
    (SELECT max(schema_version.version) FROM schema_version) AS schema_version
FROM held
CROSS JOIN unsent;
