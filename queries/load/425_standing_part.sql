-- Runs with findings or readings of a file; nothing comes in
-- Used when a file's made_at falls; returns their number. Writes: version, an empty incoming_part. Places: part. Parameter: file_id.
CREATE OR REPLACE TEMP TABLE version AS
SELECT r.run_id, r.run_id AS winner_id, r.file_id AS winner_file_id, r.test
FROM run AS r
WHERE
    r.run_id IN (SELECT t.run_id FROM {part} AS t WHERE t.file_id = $file_id)
    AND r.run_id IN (SELECT s.run_id FROM superseded.{part} AS s);

CREATE OR REPLACE TEMP TABLE incoming_part AS
SELECT *
FROM {part}
LIMIT 0;

INSERT INTO touched_unit
SELECT vin, started_at_sent
FROM run
WHERE run_id IN (SELECT run_id FROM version);

SELECT count(*) AS contested FROM version;
