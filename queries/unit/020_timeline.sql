-- Everything known of a unit, in order
-- One row a thing. Parameter: vin. Reads: unit_timeline.
SELECT * EXCLUDE (vin)
FROM unit_timeline
WHERE vin = $vin
ORDER BY "at" NULLS FIRST, what;
