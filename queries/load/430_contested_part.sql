-- Runs of which a finding or reading is told twice
-- One row a run. Writes: version. Gives: their number. Places: part, key, p_key, t_key.
CREATE OR REPLACE TEMP TABLE version AS
SELECT DISTINCT r.run_id, r.run_id AS winner_id, r.file_id AS winner_file_id, r.test
FROM known_run AS r
WHERE r.run_id IN (
    SELECT p.run_id
    FROM incoming_part AS p
    INNER JOIN {part} AS t ON p.run_id = t.run_id AND row({p_key}) IS NOT DISTINCT FROM row({t_key})
    UNION ALL
    SELECT run_id
    FROM incoming_part
    GROUP BY run_id, {key}
    HAVING count(*) > 1
);

SELECT count(*) AS contested
FROM version;
