-- repair: repairs that ended in a span of time
-- One row: their number, and of how many units; of production units, class none left out (rule 15).
-- From $from_at up to $until (UTC). Reads: repair, unit.
SELECT
    count(*) AS repairs,
    count(DISTINCT repair.vin) AS units
FROM repair
WHERE
    repair."class" IS DISTINCT FROM 'none'
    AND repair.ended_at >= CAST($from_at AS TIMESTAMPTZ)
    AND repair.ended_at < CAST($until AS TIMESTAMPTZ)
    AND repair.vin NOT IN (SELECT unit.vin FROM unit WHERE unit.kind <> 'production');
