-- handling: words of caution for what was found on units
-- One row is a unit: the catalogue's handling words of all its findings. Parameter: vins. Reads: classed_finding.
SELECT
    classed_finding.vin,
    string_agg(DISTINCT classed_finding.handling, ' ' ORDER BY classed_finding.handling) AS handling
FROM classed_finding
WHERE list_contains($vins, classed_finding.vin) AND classed_finding.handling IS NOT NULL
GROUP BY classed_finding.vin
ORDER BY classed_finding.vin;
