-- pareto_window: the defect codes of each test over the 20 shifts that end with each shift
-- One row is a production_date x shift x test x code with a defect in the 20 windows. Rules 8, 10 and 13; ranks and
-- shares as in pareto_by_shift.
-- Reads: shift_cover, defect, scoped_unit, unit_at_risk, answer.
CREATE OR REPLACE VIEW pareto_window AS
WITH found AS (
    SELECT
        shift_cover.production_date,
        shift_cover.shift,
        shift_cover.crew,
        defect.test,
        defect.code,
        max(defect.title) AS title,
        max(defect.owner_area) AS owner_area,
        min(defect.severity) AS severity,
        bool_or(defect.safety_related) AS safety_related,
        count(*) AS defects,
        count(DISTINCT defect.vin) AS units,
        sum(coalesce(defect.demerits, 0e0)) AS demerits
    FROM shift_cover
    INNER JOIN defect ON defect.production_date = shift_cover.part_date AND defect.shift = shift_cover.part_shift
    GROUP BY shift_cover.production_date, shift_cover.shift, shift_cover.crew, defect.test, defect.code
),

tested AS (
    SELECT
        scoped_unit.production_date,
        scoped_unit.shift,
        scoped_unit.test,
        count(*) AS units
    FROM scoped_unit
    WHERE scoped_unit.windows = 20
    GROUP BY scoped_unit.production_date, scoped_unit.shift, scoped_unit.test
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
    WHERE unit_at_risk.windows = 20
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
        AND tested.shift = found.shift
        AND tested.test = found.test
    LEFT JOIN spared
        ON spared.production_date = found.production_date
        AND spared.shift = found.shift
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
    rate.low,
    rate.high,
    ranked.demerits,
    ranked.rank,
    CAST(place.low AS BIGINT) AS rank_low,
    CAST(place.high AS BIGINT) AS rank_high,
    CAST(ranked.defects AS DOUBLE) / nullif(ranked.group_defects, 0) AS share,
    CAST(ranked.running_defects AS DOUBLE) / nullif(ranked.group_defects, 0) AS cumulative_share,
    ranked.at_risk_unknown
FROM ranked
LEFT JOIN answer AS rate
    ON rate.production_date = ranked.production_date
    AND rate.shift = ranked.shift
    AND rate.test = ranked.test
    AND rate.code = ranked.code
    AND rate.question = 'pareto_window'
    AND rate.name = 'per_100_at_risk'
LEFT JOIN answer AS place
    ON place.production_date = ranked.production_date
    AND place.shift = ranked.shift
    AND place.test = ranked.test
    AND place.code = ranked.code
    AND place.question = 'pareto_window'
    AND place.name = 'rank';

COMMENT ON VIEW pareto_window IS
    'One row is a code with a defect of production units in a test, over the 20 shifts that end with this one (rules 8, 10, 13); key production_date, shift, test, code.';
COMMENT ON COLUMN pareto_window.production_date IS 'day of the last of the 20 shifts (rule 3).';
COMMENT ON COLUMN pareto_window.shift IS 'the last of the 20 shifts.';
COMMENT ON COLUMN pareto_window.crew IS 'crew that worked the last shift, null where unknown.';
COMMENT ON COLUMN pareto_window.test IS 'the test.';
COMMENT ON COLUMN pareto_window.code IS 'what was found.';
COMMENT ON COLUMN pareto_window.title IS 'name of the code in words, null where the catalogue has none.';
COMMENT ON COLUMN pareto_window.owner_area IS 'area that owns the code, null where the catalogue names none.';
COMMENT ON COLUMN pareto_window.severity IS
    'worst severity class among its defects; null where none has one.';
COMMENT ON COLUMN pareto_window.safety_related IS 'true where one of its defects is safety-related.';
COMMENT ON COLUMN pareto_window.defects IS 'code x zone on attempt 1 (rule 8).';
COMMENT ON COLUMN pareto_window.units IS 'units with such a defect.';
COMMENT ON COLUMN pareto_window.at_risk IS 'units tested in the 20 shifts that can have the code (rule 10).';
COMMENT ON COLUMN pareto_window.per_100_at_risk IS 'defects per hundred units at risk (rule 10).';
COMMENT ON COLUMN pareto_window.low IS
    'lower end of the interval of per_100_at_risk, from answer (question pareto_window, name per_100_at_risk); null where none was computed.';
COMMENT ON COLUMN pareto_window.high IS 'upper end of the same interval.';
COMMENT ON COLUMN pareto_window.demerits IS 'weights of its defects summed; an unclassed defect adds none.';
COMMENT ON COLUMN pareto_window.rank IS
    'competition rank by defects within production_date, shift and test, 1 the most.';
COMMENT ON COLUMN pareto_window.rank_low IS
    'best rank of its 90 % range, from answer (question pareto_window, name rank); null where none was computed.';
COMMENT ON COLUMN pareto_window.rank_high IS 'worst rank of the same range.';
COMMENT ON COLUMN pareto_window.share IS 'its share of the group''s defects, 0 to 1.';
COMMENT ON COLUMN pareto_window.cumulative_share IS
    'share of this and all codes before it, in order of defects, ties by code; 0 to 1.';
COMMENT ON COLUMN pareto_window.at_risk_unknown IS
    'units of at_risk that are in it only because an attribute is unknown (rule 10).';
