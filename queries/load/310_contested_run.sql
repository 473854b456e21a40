-- Runs that the store knows already, by id or by the bench's own name
-- One row a run of the file. Writes: contested_run (what names the run), an empty version. Gives: their number.
CREATE OR REPLACE TEMP TABLE contested_run AS
WITH named AS (
    SELECT i.run_id, i.station, i.run_ref
    FROM incoming_run AS i
    WHERE i.run_ref IS NOT NULL
),

-- The last 30 bits are of the name alone: they find a run whose start has moved without reading names.
alike AS (
    SELECT r.run_id
    FROM run AS r
    WHERE r.run_id & 1073741823 IN (SELECT n.run_id & 1073741823 FROM named AS n)
)

SELECT coalesce(i.station || '|' || i.run_ref, cast(i.run_id AS VARCHAR)) AS name
FROM incoming_run AS i
INNER JOIN run AS r ON i.run_id = r.run_id
UNION
SELECT n.station || '|' || n.run_ref AS name
FROM named AS n
INNER JOIN run AS r ON n.station = r.station AND n.run_ref = r.run_ref
WHERE r.run_id IN (SELECT run_id FROM alike);

CREATE OR REPLACE TEMP TABLE version AS
SELECT run_id, run_id AS winner_id, file_id AS winner_file_id, test
FROM run
LIMIT 0;

SELECT count(*) AS contested
FROM contested_run;
