-- Units that joined the list of reference vehicles or left it
-- Writes: touched_unit. Parameter: vins. Reads: unit.
INSERT INTO touched_unit
SELECT vin, earliest_at
FROM unit
WHERE list_contains($vins, vin);
