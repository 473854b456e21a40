-- Runs that are taken back go; where another version is kept, that one is decided again
-- Writes: run, superseded.run, finding (what was stamped for them), twin, touched_unit, contested_run.
CREATE OR REPLACE TEMP TABLE gone AS
WITH told AS (
    SELECT run_id, file_id, file_row, vin, vin_sent, started_at_sent, station, run_ref FROM run
    UNION ALL
    SELECT run_id, file_id, file_row, vin, vin_sent, started_at_sent, station, run_ref FROM superseded.run
)

SELECT t.*, coalesce(t.station || '|' || t.run_ref, cast(t.run_id AS VARCHAR)) AS name
FROM told AS t
SEMI JOIN taken_back AS b ON t.file_id = b.file_id AND t.file_row = b.file_row;

INSERT INTO touched_unit
SELECT vin, started_at_sent FROM gone
UNION ALL
SELECT vin_sent, started_at_sent FROM gone;

DELETE FROM finding
WHERE file_id IS NULL AND run_id IN (SELECT run_id FROM gone);

DELETE FROM twin AS t
USING gone AS g
WHERE
    t.by_name
    AND ((t.run_id = g.run_id AND t.file_id = g.file_id) OR (t.twin_run_id = g.run_id AND t.twin_file_id = g.file_id));

DELETE FROM run AS t
USING taken_back AS b
WHERE t.file_id = b.file_id AND t.file_row = b.file_row;

DELETE FROM superseded.run AS t
USING taken_back AS b
WHERE t.file_id = b.file_id AND t.file_row = b.file_row;

CREATE OR REPLACE TEMP TABLE contested_run AS
SELECT DISTINCT g.name
FROM gone AS g
INNER JOIN superseded.run AS s ON g.name = coalesce(s.station || '|' || s.run_ref, cast(s.run_id AS VARCHAR));
