-- Rows of the corrections feed; an id that was not sent is 60 bits of md5 over the row
-- One row a correction_id. Writes: incoming.
CREATE OR REPLACE TEMP TABLE incoming AS
WITH named AS (
    SELECT
        a.* EXCLUDE (correction_id),
        coalesce(
            a.correction_id,
            substr(md5(concat_ws(
                '|', coalesce(cast(a.run_id AS VARCHAR), ''), coalesce(a.vin, ''), a.field, coalesce(a.value, ''),
                coalesce(a.reason, ''), coalesce(a.made_by, ''), coalesce(cast(a.made_at AS VARCHAR), '')
            )), 1, 15)
        ) AS correction_id
    FROM arriving AS a
)

SELECT *
FROM named
QUALIFY row_number() OVER (PARTITION BY file_id, correction_id ORDER BY file_row DESC) = 1;
