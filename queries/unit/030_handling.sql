-- Words of caution for what was found on a unit
-- One row a sentence. Parameter: vin. Reads: classed_finding.
SELECT DISTINCT handling
FROM classed_finding
WHERE vin = $vin AND handling IS NOT NULL
ORDER BY handling;
