-- Units whose kind a list of reference vehicles decides
-- One number. Parameter: vins. Reads: unit, unit_sent.
SELECT count(*)
FROM unit AS u
WHERE
    list_contains($vins, u.vin)
    AND NOT EXISTS (SELECT 1 FROM unit_sent AS s WHERE s.vin = u.vin AND s.kind IS NOT NULL);
