-- leaks_by_build_window: which build window leaks, with the bead and the robot that laid it
-- One row is a window of the build order x robot: its units tested for water, those with the code, and their beads.
-- A bead is the value of the attribute; the robot is the station that sent it. Rules 8 and 13.
-- Set: code = WL-SEAM, zone = null, bead = sealer_bead, window = 400
-- Reads: tested_unit, defect, attribute_latest, unit.
WITH tested AS (
    SELECT
        unit.vin,
        unit.build_seq,
        unit.line_off_at,
        $window * CAST(floor(unit.build_seq / $window) AS BIGINT) AS from_build_seq,
        bead.station AS robot,
        bead.number_value AS bead,
        tested_unit.run_id IN (
            SELECT defect.run_id
            FROM defect
            WHERE
                defect.code = $code
                AND (CAST($zone AS VARCHAR) IS NULL OR defect.zone = $zone)
        ) AS leaks
    FROM tested_unit
    INNER JOIN unit ON unit.vin = tested_unit.vin
    LEFT JOIN attribute_latest AS bead ON bead.vin = unit.vin AND bead.name = $bead
    WHERE tested_unit.test = (SELECT min(catalogue.test) FROM catalogue WHERE catalogue.code = $code)
)

SELECT
    tested.from_build_seq,
    max(tested.from_build_seq) + $window - 1 AS to_build_seq,
    min(tested.line_off_at) AS first_line_off_at,
    max(tested.line_off_at) AS last_line_off_at,
    tested.robot,
    count(*) AS units,
    count_if(tested.leaks) AS leaking,
    100 * count_if(tested.leaks) / count(*) AS per_100,
    min(tested.bead) AS bead_lowest,
    median(tested.bead) AS bead_median,
    median(tested.bead) FILTER (WHERE tested.leaks) AS bead_median_of_leaking
FROM tested
GROUP BY tested.from_build_seq, tested.robot
ORDER BY tested.from_build_seq, tested.robot;
