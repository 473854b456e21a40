-- A catalogue row touches the units with findings of its code
-- Writes: touched_unit. Reads: incoming, finding, run.
INSERT INTO touched_unit
SELECT r.vin, min(r.started_at_sent) AS earliest_at
FROM run AS r
WHERE r.run_id IN (SELECT f.run_id FROM finding AS f WHERE f.code IN (SELECT code FROM incoming))
GROUP BY r.vin;
