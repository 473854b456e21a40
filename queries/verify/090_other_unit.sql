-- Runs that tell otherwise of their unit than it is
-- One row a VIN. Reads: run, unit.
SELECT r.vin AS what, count(*) AS rows
FROM run AS r
INNER JOIN unit AS u ON r.vin = u.vin
WHERE
    r.earliest_at IS DISTINCT FROM u.earliest_at OR r.kind IS DISTINCT FROM u.kind OR r.model IS DISTINCT FROM u.model
    OR r.line IS DISTINCT FROM u.line OR r.build_seq IS DISTINCT FROM u.build_seq
GROUP BY r.vin
LIMIT 20;
