-- pareto_by_shift: the defect codes of each test by shift, the most frequent first
-- One row is a production_date x shift x test x code with a defect. Rules 8, 10 and 13. Ranks are competition ranks by
-- defects within production_date, shift and test; shares are of that group; ties run by code.
-- Reads: defect, tested_unit, unit_at_risk.
CREATE OR REPLACE VIEW pareto_by_shift AS
WITH found AS (
    SELECT
        defect.production_date,
        defect.shift,
        defect.crew,
        defect.test,
        defect.code,
        max(defect.title) AS title,
        max(defect.owner_area) AS owner_area,
        min(defect.severity) AS severity,
        bool_or(defect.safety_related) AS safety_related,
        count(*) AS defects,
        count(DISTINCT defect.vin) AS units,
        sum(coalesce(defect.demerits, 0e0)) AS demerits
    FROM defect
    GROUP BY defect.production_date, defect.shift, defect.crew, defect.test, defect.code
),

tested AS (
    SELECT
        tested_unit.production_date,
        tested_unit.shift,
        tested_unit.test,
        count(*) AS units
    FROM tested_unit
    GROUP BY tested_unit.production_date, tested_unit.shift, tested_unit.test
),

spared AS (
    SELECT
        unit_at_risk.production_date,
        unit_at_risk.shift,
        unit_at_risk.test,
        unit_at_risk.code,
        count(*) FILTER (WHERE NOT unit_at_risk.at_risk) AS units,
        count(*) FILTER (WHERE NOT unit_at_risk.known) AS unknown_units
    FROM unit_at_risk
    WHERE unit_at_risk.windows = 1
    GROUP BY unit_at_risk.production_date, unit_at_risk.shift, unit_at_risk.test, unit_at_risk.code
),

ranked AS (
    SELECT
        found.production_date,
        found.shift,
        found.crew,
        found.test,
        found.code,
        found.title,
        found.owner_area,
        found.severity,
        found.safety_related,
        found.defects,
        found.units,
        tested.units - coalesce(spared.units, 0) AS at_risk,
        coalesce(spared.unknown_units, 0) AS at_risk_unknown,
        found.demerits,
        CAST(rank() OVER (
            PARTITION BY found.production_date, found.shift, found.test
            ORDER BY found.defects DESC
        ) AS BIGINT) AS rank,
        CAST(sum(found.defects) OVER (
            PARTITION BY found.production_date, found.shift, found.test
        ) AS BIGINT) AS group_defects,
        CAST(sum(found.defects) OVER (
            PARTITION BY found.production_date, found.shift, found.test
            ORDER BY found.defects DESC, found.code ASC
            ROWS BETWEEN UNBOUNDED PRECEDING AND CURRENT ROW
        ) AS BIGINT) AS running_defects
    FROM found
    INNER JOIN tested
        ON tested.production_date = found.production_date
        AND tested.shift IS NOT DISTINCT FROM found.shift
        AND tested.test = found.test
    LEFT JOIN spared
        ON spared.production_date = found.production_date
        AND spared.shift IS NOT DISTINCT FROM found.shift
        AND spared.test = found.test
        AND spared.code = found.code
)

SELECT
    ranked.production_date,
    ranked.shift,
    ranked.crew,
    ranked.test,
    ranked.code,
    ranked.title,
    ranked.owner_area,
    ranked.severity,
    ranked.safety_related,
    ranked.defects,
    ranked.units,
    ranked.at_risk,
    100 * CAST(ranked.defects AS DOUBLE) / nullif(ranked.at_risk, 0) AS per_100_at_risk,
    ranked.demerits,
    ranked.rank,
    CAST(ranked.defects AS DOUBLE) / nullif(ranked.group_defects, 0) AS share,
    CAST(ranked.running_defects AS DOUBLE) / nullif(ranked.group_defects, 0) AS cumulative_share,
    ranked.at_risk_unknown
FROM ranked;

COMMENT ON VIEW pareto_by_shift IS
    'One row is a code with a defect of production units in a test and shift (rules 8, 10, 13); key production_date, shift, test, code.';
COMMENT ON COLUMN pareto_by_shift.production_date IS 'day of the shift (rule 3).';
COMMENT ON COLUMN pareto_by_shift.shift IS 'the shift; null for the runs of that date between shifts.';
COMMENT ON COLUMN pareto_by_shift.crew IS 'crew that worked it, null where unknown.';
COMMENT ON COLUMN pareto_by_shift.test IS 'the test.';
COMMENT ON COLUMN pareto_by_shift.code IS 'what was found.';
COMMENT ON COLUMN pareto_by_shift.title IS 'name of the code in words, null where the catalogue has none.';
COMMENT ON COLUMN pareto_by_shift.owner_area IS
    'area that owns the code, null where the catalogue names none.';
COMMENT ON COLUMN pareto_by_shift.severity IS
    'worst severity class among its defects; null where none has one.';
COMMENT ON COLUMN pareto_by_shift.safety_related IS 'true where one of its defects is safety-related.';
COMMENT ON COLUMN pareto_by_shift.defects IS 'code x zone on attempt 1 (rule 8).';
COMMENT ON COLUMN pareto_by_shift.units IS 'units with such a defect.';
COMMENT ON COLUMN pareto_by_shift.at_risk IS
    'tested units that can have the code (rule 10); all tested units where every unit can.';
COMMENT ON COLUMN pareto_by_shift.per_100_at_risk IS 'defects per hundred units at risk (rule 10).';
COMMENT ON COLUMN pareto_by_shift.demerits IS 'weights of its defects summed; an unclassed defect adds none.';
COMMENT ON COLUMN pareto_by_shift.rank IS
    'competition rank by defects within production_date, shift and test, 1 the most.';
COMMENT ON COLUMN pareto_by_shift.share IS 'its share of the group''s defects, 0 to 1.';
COMMENT ON COLUMN pareto_by_shift.cumulative_share IS
    'share of this and all codes before it, in order of defects, ties by code; 0 to 1.';
COMMENT ON COLUMN pareto_by_shift.at_risk_unknown IS
    'units of at_risk that are in it only because an attribute is unknown (rule 10).';
