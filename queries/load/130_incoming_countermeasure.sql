-- Rows of the countermeasures feed; an id that was not sent is 60 bits of md5 over the row
-- One row an action_id. Writes: incoming.
CREATE OR REPLACE TEMP TABLE incoming AS
WITH named AS (
    SELECT
        a.* EXCLUDE (action_id),
        coalesce(
            a.action_id,
            substr(md5(concat_ws(
                '|', coalesce(a.test, ''), coalesce(a.code, ''), coalesce(a.zone, ''), coalesce(a.owner_area, ''),
                coalesce(a.owner, ''), coalesce(a.text, ''), coalesce(cast(a.opened_on AS VARCHAR), ''),
                coalesce(cast(a.from_build_seq AS VARCHAR), ''), coalesce(cast(a.cut_in_at AS VARCHAR), '')
            )), 1, 15)
        ) AS action_id
    FROM arriving AS a
)

SELECT *
FROM named
QUALIFY row_number() OVER (PARTITION BY file_id, action_id ORDER BY file_row DESC) = 1;
