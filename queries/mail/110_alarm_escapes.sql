-- Escapes of late, for an alarm
-- One row a unit x test (rule 14); times are plant-local. Parameter: since. Reads: escape, event, test_definition,
-- classed_finding, plant_setting.
WITH late AS (
    SELECT escape.vin, escape.test, escape.reason, escape.event, escape.event_at
    FROM escape
    WHERE escape.event_at >= $since
),

placed AS (
    SELECT event.vin, event.place
    FROM event
    WHERE event.place IS NOT NULL AND event.vin IN (SELECT late.vin FROM late)
    QUALIFY row_number() OVER (PARTITION BY event.vin ORDER BY event."at" DESC, event.event_id DESC) = 1
),

handled AS (
    SELECT
        classed_finding.vin,
        string_agg(DISTINCT classed_finding.handling, ' ' ORDER BY classed_finding.handling) AS handling
    FROM classed_finding
    WHERE
        classed_finding.handling IS NOT NULL
        AND classed_finding.counts_as NOT IN ('equipment', 'observation')
        AND classed_finding.vin IN (SELECT late.vin FROM late)
    GROUP BY classed_finding.vin
)

SELECT
    late.vin,
    late.test,
    coalesce(test_definition.title, late.test) AS title,
    late.reason,
    late.event,
    late.event_at AT TIME ZONE plant_setting.timezone AS event_at,
    placed.place,
    handled.handling
FROM late
CROSS JOIN plant_setting
LEFT JOIN test_definition ON test_definition.test = late.test
LEFT JOIN placed ON placed.vin = late.vin
LEFT JOIN handled ON handled.vin = late.vin
ORDER BY late.event_at, late.vin, late.test;
