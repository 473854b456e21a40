-- Rows of the repairs feed; an id that was not sent is 60 bits of md5 over the row
-- One row a repair_id. Writes: incoming.
CREATE OR REPLACE TEMP TABLE incoming AS
WITH named AS (
    SELECT
        a.* EXCLUDE (repair_id),
        coalesce(
            a.repair_id,
            substr(md5(concat_ws(
                '|', a.vin, coalesce(a.test, ''), coalesce(a.code, ''), coalesce(a.zone, ''),
                coalesce(cast(a.started_at AS VARCHAR), ''), coalesce(cast(a.ended_at AS VARCHAR), ''),
                coalesce(a.action, ''), coalesce(a.class, ''), coalesce(a.owner_area, ''), coalesce(a.place, ''),
                coalesce(a.part, ''), coalesce(a.lot, ''), coalesce(cast(a.entered_at AS VARCHAR), '')
            )), 1, 15)
        ) AS repair_id
    FROM arriving AS a
)

SELECT *
FROM named
QUALIFY row_number() OVER (PARTITION BY file_id, repair_id ORDER BY file_row DESC) = 1;
