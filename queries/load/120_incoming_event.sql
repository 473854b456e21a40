-- Rows of the events feed; an id that was not sent is 60 bits of md5 over the row
-- One row an event_id. Writes: incoming.
CREATE OR REPLACE TEMP TABLE incoming AS
WITH named AS (
    SELECT
        a.* EXCLUDE (event_id),
        coalesce(
            a.event_id,
            substr(md5(concat_ws(
                '|', a.vin, cast(a."at" AS VARCHAR), a.kind, coalesce(a.place, ''), coalesce(a.reference, ''),
                coalesce(a.note, ''), coalesce(a.entered_by, '')
            )), 1, 15)
        ) AS event_id
    FROM arriving AS a
)

SELECT *
FROM named
QUALIFY row_number() OVER (PARTITION BY file_id, event_id ORDER BY file_row DESC) = 1;
