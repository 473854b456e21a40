-- known_code: all codes that were found or stand in the catalogue, and the zones that are known
-- One row is a code or a zone, the other is null. Reads: finding, defect_code, zone.
SELECT finding.code, NULL AS zone
FROM finding
WHERE finding.code IS NOT NULL
UNION
SELECT defect_code.code, NULL AS zone
FROM defect_code
UNION
SELECT NULL AS code, finding.zone
FROM finding
WHERE finding.zone IS NOT NULL
UNION
SELECT NULL AS code, zone.zone
FROM zone
ORDER BY code, zone;
