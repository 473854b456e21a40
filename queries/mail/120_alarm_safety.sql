-- Safety-related findings of late that no release covers, for an alarm
-- One row a unit x test x code x zone, at its first such finding since then; found_at is plant-local (rules 4 and 14).
-- Parameter: since. Reads: classed_finding, release_given, event, test_definition, plant_setting.
WITH spot AS (
    SELECT
        classed_finding.vin,
        classed_finding.test,
        classed_finding.code,
        classed_finding.zone,
        classed_finding.title AS code_title,
        classed_finding.handling,
        classed_finding.station,
        classed_finding.bay,
        classed_finding."at"
    FROM classed_finding
    WHERE
        classed_finding.safety_related
        AND classed_finding.kind = 'production'
        AND classed_finding.counts_as NOT IN ('equipment', 'observation')
        AND classed_finding.void_reason IS DISTINCT FROM 'suspect_double'
        AND classed_finding."at" >= $since
    QUALIFY row_number() OVER (
        PARTITION BY classed_finding.vin, classed_finding.test, classed_finding.code, classed_finding.zone
        ORDER BY classed_finding."at", classed_finding.run_id, classed_finding.step
    ) = 1
),

placed AS (
    SELECT event.vin, event.place
    FROM event
    WHERE event.place IS NOT NULL AND event.vin IN (SELECT spot.vin FROM spot)
    QUALIFY row_number() OVER (PARTITION BY event.vin ORDER BY event."at" DESC, event.event_id DESC) = 1
)

SELECT
    spot.vin,
    spot.test,
    coalesce(test_definition.title, spot.test) AS title,
    spot.code,
    spot.code_title,
    spot.zone,
    spot.handling,
    spot.station,
    spot.bay,
    spot."at" AT TIME ZONE plant_setting.timezone AS found_at,
    placed.place
FROM spot
CROSS JOIN plant_setting
LEFT JOIN test_definition ON test_definition.test = spot.test
LEFT JOIN placed ON placed.vin = spot.vin
WHERE NOT EXISTS (
    SELECT 1
    FROM release_given
    WHERE release_given.vin = spot.vin AND release_given."at" >= spot."at"
)
ORDER BY spot."at", spot.vin, spot.code, spot.zone;
