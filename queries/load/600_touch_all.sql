-- Every unit, for stamps from nothing
-- Writes: touched_unit.
INSERT INTO touched_unit
SELECT vin, earliest_at
FROM unit;
