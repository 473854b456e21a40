-- known_code: all codes that were found or stand in the catalogue, and the zones of one of them
-- One row is a code with a zone of a finding, null where it has none. For words about what is not known.
-- Reads: finding, defect_code.
SELECT DISTINCT finding.code, finding.zone
FROM finding
WHERE finding.code IS NOT NULL
UNION
SELECT DISTINCT defect_code.code, NULL AS zone
FROM defect_code
ORDER BY code, zone;
