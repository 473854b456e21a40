-- Units whose findings or readings came apart
-- Writes: touched_unit. Reads: incoming_part, known_run.
INSERT INTO touched_unit
SELECT r.vin, min(r.started_at_sent) AS earliest_at
FROM known_run AS r
WHERE r.run_id IN (SELECT run_id FROM incoming_part)
GROUP BY r.vin;
