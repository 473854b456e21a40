-- Runs of a unit that is not in unit
-- One row a VIN. Reads: run, unit.
SELECT r.vin AS what, count(*) AS rows
FROM run AS r
ANTI JOIN unit AS u ON r.vin = u.vin
GROUP BY r.vin
LIMIT 20;
