-- Units that incoming rows touch, with the earliest time they tell
-- Writes: touched_unit. Places: rows (incoming or pool), time.
INSERT INTO touched_unit
SELECT vin, min({time}) AS earliest_at
FROM {rows}
WHERE vin IS NOT NULL
GROUP BY vin;
