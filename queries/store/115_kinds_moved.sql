-- Units whose kind a list of reference vehicles decides: neither the units feed nor a correction tells it
-- One number. Parameter: vins. Reads: unit, unit_sent, correction.
SELECT count(*)
FROM unit AS u
WHERE
    list_contains($vins, u.vin)
    AND NOT EXISTS (SELECT 1 FROM unit_sent AS s WHERE s.vin = u.vin AND s.kind IS NOT NULL)
    AND NOT EXISTS (SELECT 1 FROM correction AS c WHERE c.vin = u.vin AND c.field = 'kind' AND c.run_id IS NULL);
