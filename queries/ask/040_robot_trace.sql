-- robot_trace: a robot's own trace joined to the unit it sealed, and to what the water test found on that unit
-- One row is a row of the trace: it belongs to the unit whose bead the same station reported last before it, at most
-- so many seconds ago; vin is null where there is none. Rule 8.
-- Attach: trace (station, at, and what the robot measured)
-- Set: bead = sealer_bead, seconds = 120, test = water
-- Reads: attribute, first_run, defect, and the attached trace.
WITH sealed AS (
    SELECT attribute.station, attribute."at", attribute.vin, attribute.number_value AS bead
    FROM attribute
    WHERE attribute.name = $bead AND attribute."at" IS NOT NULL
),

found AS (
    SELECT defect.vin, string_agg(concat(defect.code, ' ', defect.zone), ', ' ORDER BY defect.code, defect.zone) AS defects
    FROM defect
    WHERE defect.test = $test
    GROUP BY defect.vin
),

placed AS (
    SELECT
        trace.*,
        sealed.vin AS vin_near,
        sealed.bead,
        sealed."at" AS sealed_at
    FROM trace
    ASOF LEFT JOIN sealed ON sealed.station = trace.station AND sealed."at" <= CAST(trace."at" AS TIMESTAMPTZ)
)

SELECT
    placed.* EXCLUDE (vin_near, bead, sealed_at),
    CASE WHEN CAST(placed."at" AS TIMESTAMPTZ) <= placed.sealed_at + to_seconds($seconds) THEN placed.vin_near END AS vin,
    CASE WHEN CAST(placed."at" AS TIMESTAMPTZ) <= placed.sealed_at + to_seconds($seconds) THEN placed.bead END AS bead,
    CASE WHEN CAST(placed."at" AS TIMESTAMPTZ) <= placed.sealed_at + to_seconds($seconds) THEN placed.sealed_at END AS sealed_at,
    first_run.result AS first_result,
    found.defects
FROM placed
LEFT JOIN first_run
    ON first_run.vin = placed.vin_near
    AND first_run.test = $test
    AND CAST(placed."at" AS TIMESTAMPTZ) <= placed.sealed_at + to_seconds($seconds)
LEFT JOIN found ON found.vin = first_run.vin
ORDER BY placed.station, placed."at";
