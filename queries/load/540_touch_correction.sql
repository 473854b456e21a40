-- A correction touches the unit that a run had, was sent for, and is mended to (rule 17)
-- Writes: touched_unit. Reads: incoming, run.
INSERT INTO touched_unit
SELECT r.vin, r.started_at_sent AS earliest_at
FROM incoming AS c
INNER JOIN run AS r ON c.run_id = r.run_id
UNION ALL
SELECT r.vin_sent, r.started_at_sent AS earliest_at
FROM incoming AS c
INNER JOIN run AS r ON c.run_id = r.run_id
UNION ALL
SELECT c.value, to_timestamp(c.run_id >> 30) AS earliest_at
FROM incoming AS c
WHERE c.field = 'vin' AND c.run_id IS NOT NULL
UNION ALL
SELECT c.vin, NULL AS earliest_at
FROM incoming AS c
WHERE c.vin IS NOT NULL;
