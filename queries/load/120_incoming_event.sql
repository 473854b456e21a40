-- Rows of the events feed; an id that was not sent is 60 bits of md5 over the row
-- One row an event_id. Writes: incoming.
CREATE OR REPLACE TEMP TABLE incoming AS
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
QUALIFY row_number() OVER (PARTITION BY a.file_id, event_id ORDER BY a.file_row DESC) = 1;
