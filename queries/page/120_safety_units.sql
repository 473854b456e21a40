-- safety_units: units with a safety-related finding and no release since
-- One row is a unit x test x code x zone, at its latest such finding up to the shift's end; found_at is plant-local.
-- Never cleared by a pass or a repair, listed until a release (rules 4 and 14); a scrapped unit leaves the list.
-- Reads: finding, defect_code, zone, classed_finding, release_given, event, unit_status, shift_window, plant_setting.
WITH present AS (
    SELECT shift_window.ends_at
    FROM shift_window
    WHERE
        shift_window.production_date = $production_date
        AND shift_window.shift = $shift
),

-- What is released was mostly long ago: it is left out before any run is looked at.
listed AS (
    SELECT finding.run_id
    FROM finding
    WHERE
        finding.kind = 'production'
        AND finding.production_date <= $production_date
        AND (
            finding.code IN (SELECT defect_code.code FROM defect_code WHERE defect_code.safety_related)
            OR finding.zone IN (SELECT zone.zone FROM zone WHERE zone.hv_near)
        )
        AND NOT EXISTS (
            SELECT 1
            FROM release_given
            WHERE release_given.vin = finding.vin AND release_given."at" >= finding."at"
        )
),

spot AS (
    SELECT
        classed_finding.vin,
        classed_finding.test,
        classed_finding.code,
        classed_finding.zone,
        classed_finding.title,
        classed_finding.handling,
        classed_finding."at",
        classed_finding.production_date,
        classed_finding.shift,
        classed_finding.earliest_at
    FROM classed_finding
    LEFT JOIN present ON true
    WHERE
        classed_finding.run_id IN (SELECT listed.run_id FROM listed)
        AND classed_finding.safety_related
        AND classed_finding.kind = 'production'
        AND classed_finding.counts_as NOT IN ('equipment', 'observation')
        AND classed_finding.void_reason IS DISTINCT FROM 'suspect_double'
        AND classed_finding.production_date <= $production_date
        AND (present.ends_at IS NULL OR classed_finding."at" < present.ends_at)
    QUALIFY row_number() OVER (
        PARTITION BY classed_finding.vin, classed_finding.test, classed_finding.code, classed_finding.zone
        ORDER BY classed_finding."at" DESC, classed_finding.run_id DESC, classed_finding.step
    ) = 1
),

placed AS (
    SELECT event.vin, event.place
    FROM (SELECT DISTINCT spot.vin, spot.earliest_at FROM spot) AS spot
    INNER JOIN event ON event.vin = spot.vin AND event."at" >= spot.earliest_at
    WHERE event.place IS NOT NULL
    QUALIFY row_number() OVER (PARTITION BY event.vin ORDER BY event."at" DESC, event.event_id DESC) = 1
)

SELECT
    spot.vin,
    spot.test,
    spot.code,
    spot.title AS code_title,
    spot.zone,
    spot."at" AT TIME ZONE plant_setting.timezone AS found_at,
    spot.production_date = $production_date AND spot.shift IS NOT DISTINCT FROM $shift AS in_shift,
    unit_status.status,
    placed.place,
    spot.handling
FROM spot
CROSS JOIN plant_setting
LEFT JOIN unit_status
    ON unit_status.vin = spot.vin
    AND unit_status.test = spot.test
    AND unit_status.earliest_at IS NOT DISTINCT FROM spot.earliest_at
LEFT JOIN placed ON placed.vin = spot.vin
WHERE
    unit_status.status IS DISTINCT FROM 'scrapped'
ORDER BY spot.vin, spot.test, spot.code, spot.zone;
